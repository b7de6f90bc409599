"""The same answers from independent libraries."""
