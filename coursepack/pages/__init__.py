"""From solved exercises to HTML, and the type the pages are set in."""
