"""`python -m coursepack` is the command."""

import sys

from coursepack.cli import main

if __name__ == "__main__":
    sys.exit(main())
