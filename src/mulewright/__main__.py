"""Run the command line with ``python -m mulewright``."""

from mulewright.cli import main

if __name__ == "__main__":
    main()
