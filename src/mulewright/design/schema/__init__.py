"""What a mule file may say, table by table; every value may be left out, and left out means unknown."""
