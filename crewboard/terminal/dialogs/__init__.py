"""Questions asked over a page: pick from a list, a line of text, a time span, yes or no."""
