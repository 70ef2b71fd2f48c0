"""The brew sheet as plain blocks and as HTML."""
