"""``python -m netcheck``."""

import sys

from netcheck.cli import main

if __name__ == "__main__":
    sys.exit(main())
