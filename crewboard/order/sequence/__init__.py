"""What comes before what: links and gates, loops, and how far the work is passed."""
