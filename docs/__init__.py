"""The pages, and what fills them while they are built."""
