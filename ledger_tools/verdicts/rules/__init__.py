"""The rules, one module a stage. Importing this registers them all, in the order of the stages."""

from __future__ import annotations

from . import a_scope, b_purchase, c_building, c_follows, d_fixture, e_domestic, f_when, g_money_in, h_gains

__all__ = [
    "a_scope",
    "b_purchase",
    "c_building",
    "c_follows",
    "d_fixture",
    "e_domestic",
    "f_when",
    "g_money_in",
    "h_gains",
]
