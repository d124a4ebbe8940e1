"""What each class of income and expense is called on a page, in the order of the property pages."""

from __future__ import annotations

INCOME = {
    "rent": "Rents",
    "other_income": "Other income",
    "rent_a_room_rents": "Rents of lodgers",
    "balancing_charge": "Kit of your own, sold",
    "premium": "Lease premiums, the part that is income",
    "inducement": "Sums received for taking a lease",
}
EXPENSES = {
    "premises": "Rates, insurance, council tax, ground rent",
    "repairs": "Repairs and upkeep",
    "finance_other": "Finance costs, not residential",
    "professional": "Agents, legal and other fees",
    "services": "Services and wages",
    "travel": "Travel",
    "other": "Other expenses",
    "domestic": "Replacing domestic items",
    "investment_allowance": "Kit of your own",
}
FINANCE = {
    "finance_residential": "Finance costs of dwellings",
    "finance_brought": "Finance costs of dwellings not used before",
}
RELIEFS = {
    "property_allowance": "Property income allowance",
    "rent_a_room": "Rent a room, the sum told as free of tax",
    "tax_deducted": "Tax taken off the rents",
}
TOTAL = {"consolidated": "All expenses in one sum"}
LABELS = {**INCOME, **EXPENSES, **TOTAL, **FINANCE, **RELIEFS}
