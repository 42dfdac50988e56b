"""The scenes that the reader learns from, by generator."""

# As often as marked.cpp renders them, a few more of what touches and of what has no conductor stripe at all.
MIXTURE = {'panel': 2, 'cabinet': 2, 'terminals': 2, 'gutter': 2, 'junction': 2, 'closeup': 1.5, 'held': 1, 'leads': 1,
           'feeders': 1.5, 'motorbox': 1, 'tonal': 0.5, 'loops': 0.3, 'table': 0.5, 'ducts': 0.5, 'boards': 0.5}
