"""How fast the demo term is printed: python -m tests.speed."""
