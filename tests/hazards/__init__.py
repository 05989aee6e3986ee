"""The hazard sheets that come with the program, and a crew's own changes to them."""
