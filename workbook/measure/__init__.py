"""Numbers and units as chemists write them."""
