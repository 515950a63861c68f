"""Questions to the book. Every function takes `scope` first: what the asker may see, made by `access`."""
