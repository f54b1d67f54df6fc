"""Tests of the decode of pushes."""
