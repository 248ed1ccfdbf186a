"""The edge that writes: marks to PDF, PDF to previews, and the proof that reads the file back."""
