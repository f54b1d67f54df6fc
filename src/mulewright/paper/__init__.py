"""Results on paper: pictures, sheets, documents."""
