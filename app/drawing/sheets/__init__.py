"""The printed set: papers, scales, the frame with its title block, plans at scale, pages of notes and tables."""
