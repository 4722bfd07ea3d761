"""What instruments say for themselves: their serial lines, and the readings that come along them."""
