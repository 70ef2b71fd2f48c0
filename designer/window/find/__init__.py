"""Finding anything: by one card over the window, and within the page that is shown."""
