"""A job on the bench for the papers that tell of work."""

from __future__ import annotations

from tests.work.bench.conftest import bench, bench_template  # noqa: F401  # fixtures
