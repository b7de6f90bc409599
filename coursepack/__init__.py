"""coursepack prepares a woodworking-for-aircraft shop class: sheets, figures and keys from lesson sources."""

__version__ = "0.1.0"
