"""Signature texts of models and problems, and the encoders that turn them into vectors."""
