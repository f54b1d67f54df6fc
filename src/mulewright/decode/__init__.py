"""What is wrong with the wiring, seen from which way each wheel turned on each push, and what puts it right?"""
