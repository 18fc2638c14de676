"""What each answer is drawn as: one file for each question, and the door to all of them."""

from app.work.statistics.pictures.picture_of import picture_of

__all__ = ["picture_of"]
