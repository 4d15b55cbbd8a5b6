"""What is printed: shapes, pages, PDF, SVG, PNG, and the command line."""
