"""Sheet: the page that shows the brew sheet as it is printed."""
