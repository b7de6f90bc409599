"""HTML to PDF, in worker processes, within limits; and the finishing of the PDF."""
