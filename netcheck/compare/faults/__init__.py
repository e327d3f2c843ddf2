"""What is where, and which hand did it: from leads on nets to the fewest slips that explain them."""
