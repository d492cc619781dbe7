"""Views of one model: text, a page, a graph, JSON."""
