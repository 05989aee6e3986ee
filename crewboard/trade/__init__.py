"""What a wood shop reckons: bends, boards, coats, air, fastenings, canvas, setting out.

Pure: nothing here knows a clock, a file or a screen. A kind of reckoning is a file in `kinds/`.
"""
