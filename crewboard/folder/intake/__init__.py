"""Pictures, sound and films of a phone or camera: from any folder into the vehicle's own."""
