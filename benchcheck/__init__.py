"""Benchcheck: rebuild a pump at the bench, step by step, and keep a record that can be trusted."""

from __future__ import annotations

__version__ = "0.1.0"
