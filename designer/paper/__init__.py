"""The brew sheet on paper: pages, rows, pieces, type and drawings, and as PDF; no widgets."""
