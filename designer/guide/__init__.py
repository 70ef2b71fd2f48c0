"""The guide: its pages as blocks, in three languages; as text, as one web page; searched."""
