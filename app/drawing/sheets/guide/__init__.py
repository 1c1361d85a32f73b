"""The quick guide: one page to hand out, of what is wired to each kind of place, made from the practice in force."""
