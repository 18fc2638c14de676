"""A large book for measuring, laid down in bulk: ``build_many(folder, until, jobs)``."""

from demo_db.many.building import (
    FIRST_JOB,
    JOBS,
    ON_THE_BENCH,
    READINGS_OF_NEWEST,
    build_many,
)

__all__ = ["FIRST_JOB", "JOBS", "ON_THE_BENCH", "READINGS_OF_NEWEST", "build_many"]
