"""Which leads of the shelf join what the mule has to be wired with, and what is missing?"""
