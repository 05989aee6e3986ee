"""What the screens are built of."""
