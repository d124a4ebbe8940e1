"""The rules, by stage. Importing this registers them all; within a step an earlier module is asked first."""

from __future__ import annotations

from . import (
    a_leasehold,
    a_money,
    a_scope,
    b_ask_first,
    b_purchase,
    c_ask_first,
    c_better,
    c_follows,
    c_kind,
    c_pieces,
    c_same,
    d_fixture,
    e_ask_first,
    e_domestic,
    f_when,
    g_damages,
    g_leaving,
    g_money_in,
    h_gains,
    i_declared,
)

__all__ = [
    "a_leasehold",
    "a_money",
    "a_scope",
    "b_ask_first",
    "b_purchase",
    "c_ask_first",
    "c_better",
    "c_follows",
    "c_kind",
    "c_pieces",
    "c_same",
    "d_fixture",
    "e_ask_first",
    "e_domestic",
    "f_when",
    "g_damages",
    "g_leaving",
    "g_money_in",
    "h_gains",
    "i_declared",
]
