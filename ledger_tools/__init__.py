"""The bookkeeping toolkit of UK landlords: a book of trade words in, proofs and tax-year figures out."""

__version__ = "0.1.0"
