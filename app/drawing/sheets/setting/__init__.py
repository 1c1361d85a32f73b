"""What is lettered on sheets: blocks of one column's width, how they flow over columns and sheets, forms to fill in."""
