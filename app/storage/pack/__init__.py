"""Everything that is kept as one zip file, for another Studbay or for safe keeping; brought in beside what is there."""
