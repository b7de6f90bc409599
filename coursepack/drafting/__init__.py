"""Geometry in millimetres: dimensioned figures laid out as numbers before any ink."""
