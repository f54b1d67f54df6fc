"""Which constants do several models share? Those of nature, never those of a part."""

GRAVITY = 9.81  # [m/s^2] as textbooks use it; the standard value, 9.80665, is 0.03 % less
