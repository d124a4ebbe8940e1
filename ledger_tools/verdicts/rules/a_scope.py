"""Stage A: is it a cost of this letting at all, and if so an ordinary running cost?"""

from __future__ import annotations

from dataclasses import replace

from ..answer import Answer, Remark, Said
from ..as_bought import FREE
from ..case import Case, either
from ..legal_fees import law_for, likely_law, words_of_a_tenant
from ..offers import SOON, rule_as
from ..registry import rule
from ..told import TENANT
from ..verdict import Confidence, Kind, Part

CLEAR, USUAL, ARGUABLE = Confidence.CLEAR, Confidence.USUAL, Confidence.ARGUABLE
MONEY_OUT = "paid, billed, charged, invoiced"
UPKEEP = "cleaned, cleared, serviced, inspected, certified, tested"
SURVEYS = frozenset({"survey", "valuation"})
CARS = frozenset({"car", "cars"})
LICENCES = frozenset({"hmo licence"})
LOOKED = frozenset({"inspected", "tested", "certified"})
VALUED = frozenset({"valuation", "valuation fee"})  # by whom is not in the word


@rule(
    "A",
    "only-moves-money",
    "ITTOIA 2005 s.33; PIM1052",
    CLEAR,
    "read",
    flips=("it was neither a loan nor a deposit",),
    keep=("the loan agreement, or the deposit scheme's certificate",),
)
def only_moves_money(case: Case) -> Said:
    """Loan capital, a tenant's deposit that is held."""
    if case.verb == "borrowed":
        return Answer(case.all(Kind.IGNORED), "Borrowed money is no income.")
    if case.thing.kind == "liability" and case.verb in ("paid", "repaid", "received", "charged"):
        return Answer(
            case.all(Kind.IGNORED), f"This moves money that is owed ({case.what}); it is neither cost nor income."
        )
    if case.verb == "repaid" and not case.line.things:
        return Answer(case.all(Kind.IGNORED), "Paying back what was borrowed is no cost; only the interest is.")
    return None


@rule(
    "A",
    "repaid-income",
    "ITTOIA 2005 s.272, s.272ZA",
    USUAL,
    "practice",
    verbs="repaid",
    flips=("it was something other than the tenant's own money back",),
    keep=(
        "the letter that asks for it back",
        "bank statements that show both payments",
    ),
)
def repaid_income(case: Case) -> Said:
    """Income that had to be given back, such as rent paid twice."""
    if case.thing.kind != "income":
        return None
    return Answer(case.all(Kind.NETS, case.thing.category or "other_income"), "Income given back comes off the income.")


@rule(
    "A",
    "fine",
    "ITTOIA 2005 s.34",
    USUAL,
    "memory",
    verbs=MONEY_OUT,
    flips=("it was a fee, such as for a licence, and no punishment",),
    keep=("the notice that demands it",),
)
def fine(case: Case) -> Said:
    """Fines and penalties for breaking the law."""
    if case.thing.name != "penalty":
        return None
    return Answer(case.all(Kind.PRIVATE), "A fine punishes; it is not spent to earn the rents.")


@rule(
    "A",
    "tax-taken-off",
    "HMRC form SA105, box 21",
    CLEAR,
    "read",
    verbs=MONEY_OUT,
    flips=("it was a tax bill of your own",),
    keep=("the certificate of the tax taken off",),
)
def tax_taken_off(case: Case) -> Said:
    """Tax that an agent or tenant keeps back from the rent of a landlord abroad."""
    if case.thing.category != "tax_deducted":
        return None
    return Answer(
        case.all(Kind.PRIVATE, "tax_deducted"),
        "Tax kept back from the rent is no cost of letting: the rent counts whole, and the tax is paid towards your "
        "own bill.",
    )


@rule(
    "A",
    "car",
    "ITTOIA 2005 s.307B; CAA 2001 s.4(2)(aa)",
    CLEAR,
    "read",
    verbs="bought, replaced, paid",
    flips=("it was a van, or a machine of another kind",),
    keep=("a log of the trips, with their miles",),
)
def car(case: Case) -> Said:
    """The price of a car, which is never kit that comes off at once."""
    if case.line.thing.lower() not in CARS:
        return None
    return Answer(
        case.no_relief,
        "The price of a car is capital and comes off by no way of accounting. For trips for the lets tell the miles "
        "(`drove 18 miles`); or, in place of miles, ask an adviser for allowances on the share used for the lets.",
    )


@rule(
    "A",
    "private",
    "ITTOIA 2005 s.34; PIM2005",
    CLEAR,
    "read",
    flips=("a part of it was wholly for the letting and can be told apart",),
    keep=("bills that show the private part on its own",),
)
def private(case: Case) -> Said:
    """Spent for the owner's own life, not for the letting."""
    if case.thing.kind != "private" and case.line.purpose != "private":
        return None
    return Answer(
        case.all(Kind.PRIVATE), "It was not spent wholly for the letting, so nothing of it comes off the rents."
    )


@rule(
    "A",
    "no-cost-no-claim",
    "Simon's commentary on TCGA 1992 s.38; common practice for income",
    CLEAR,
    "head",
    told="own_labour",
    flips=("you paid somebody else a real price for the work",),
    keep=("receipts for the materials",),
)
def no_cost_no_claim(case: Case) -> Said:
    """Your own labour."""
    if not case.facts.own_labour:
        return None
    return Remark("Your own work cannot be claimed, so the sum is taken as what the materials cost.")


@rule(
    "A",
    "business-kit",
    "ITTOIA 2005 s.307B; CAA 2001 s.4, s.35",
    CLEAR,
    "read",
    verbs="bought, installed, replaced, added, repaired, paid",
    flips=(
        "the tenants use it in the house",
        "it is a car",
    ),
    keep=("a note of what you use it for",),
)
def business_kit(case: Case) -> Said:
    """A tool or machine of your own, used to run the lets."""
    asked = case.thing.often_own and case.domestic and case.line.purpose.lower() not in TENANT
    if asked and case.verb in ("bought", "installed", "added"):
        return either(
            case.all(Kind.RUNNING, "other"),
            case.no_relief,
            f"Whose use is it for ({case.what})? Kit of your own, to run your lets with, comes off; the first one left "
            "for a tenant has no relief, only what replaces it.",
            (" for upkeep", " for tenant"),
        )
    if case.nature != "kit":
        return None
    if case.verb == "repaired":
        return Answer(case.all(Kind.RUNNING, "other"), "Keeping your own kit going is a running cost.")
    ways = case.history.lets.bases(case.house, case.day)
    says = "On the cash basis, kit you use to run your lets comes off at once."
    if "accruals" in ways:
        first = says if len(ways) > 1 else "Kit you use to run your lets is capital, and no tenant has the use of it."
        says = f"{first} By what is owed the annual investment allowance (from memory) gives back all of it at once."
    return Answer(case.all(Kind.RUNNING, "investment_allowance"), says)


@rule(
    "A",
    "buying-or-selling-cost",
    "TCGA 1992 s.38(1)(a), (c), (2); BIM46400; BIM46415",
    CLEAR,
    "read",
    flips=("it was a survey for works on a house already let",),
    keep=("the completion statement",),
)
def buying_or_selling_cost(case: Case) -> Said:
    """Taxes and fees of buying or selling the house, and advertising for a buyer."""
    if case.thing.name == "advertising" and law_for(case) == "selling":
        return Answer(
            case.selling, "Advertising for a buyer is a cost of selling, so it counts when the house is sold."
        )
    if case.thing.kind == "cost" and case.thing.category == "professional" and law_for(case) in ("buying", "selling"):
        parts = case.selling if law_for(case) == "selling" else case.purchase
        return Answer(parts, f"Part of buying or selling ({case.what}), so it counts when the house is sold.")
    early = case.before_owning and (case.verb in LOOKED or (case.nature == "service" and case.thing.again == "job"))
    if case.thing.kind not in ("purchase", "capital") and not early:
        return None
    if case.verb not in (*LOOKED, "paid", "billed", "charged", "invoiced"):
        return None
    if case.thing.name == "purchase" and case.got_how == "bought":
        return Answer(case.all(Kind.IGNORED), "The price is told where your book says the house was bought.")
    parts = case.selling if case.thing.kind == "capital" or for_its_sale(case) else case.purchase
    flips = () if early or case.thing.name in SURVEYS else ("it was paid for something else than the house itself",)
    return Answer(parts, f"Part of buying or selling ({case.what}), so it counts when the house is sold.", flips=flips)


def for_its_sale(case: Case) -> bool:
    """Whether a fee that may be of buying or of selling is of selling: said so, or spent once it was being sold."""
    purpose = law_for(case)
    if purpose in ("buying", "selling") or case.place is None or case.place.sold is None:
        return purpose == "selling"
    contract = case.place.sale_exchanged or case.place.sold.day
    last_let_over = case.let_before and not case.history.lets.let_after(case.house, case.day)
    return case.day >= contract or last_let_over and not case.history.lets.let_on(case.house, case.day)


@rule(
    "A",
    "lawyer",
    "BIM46405; BIM46415; HMRC property return help text",
    USUAL,
    "read",
    verbs=MONEY_OUT,
    flips=("the lawyer was asked to do something else",),
    keep=("a bill that names the work",),
)
def lawyer(case: Case) -> Said:
    """Legal fees follow what they were for."""
    if case.thing.kind not in ("", "cost") or not {"legal", "solicitor", "lawyer"} & {
        word.rstrip("s") for word in case.name.split()
    }:
        return None
    purpose = law_for(case)
    if purpose == "tenant":
        return Answer(
            case.all(Kind.RUNNING, "professional"), "Legal fees about a tenant of a running let are a running cost."
        )
    if purpose in ("buying", "selling"):
        parts = case.purchase if purpose == "buying" else case.selling
        return Answer(parts, f"Legal fees of buying or selling ({case.line.purpose}) count when the house is sold.")
    if purpose == "loan":
        return Answer(case.all(Kind.RUNNING, "finance_residential"), "Legal fees of a loan are a cost of the loan.")
    about = words_of_a_tenant(case)
    if about:
        says = f'You tell of a tenant ("{about}"): legal fees about a tenant of a running let are a running cost.'
        return Answer(case.all(Kind.RUNNING, "professional"), says, USUAL)
    says = "What was the lawyer for? About a tenant it is a running cost, about the purchase it is capital."
    ask: tuple[str, ...] = likely_law(case)
    third: tuple[Part, ...] = ()
    if " for probate" in ask:
        says += " What the estate had to pay is no cost of the letting."
        third = case.all(Kind.PRIVATE)
    if case.line.purpose:
        third = ()
        says = (
            f"You tell what the lawyer was for ({case.line.purpose}). To look after what you have and let is a running "
            "cost; to get, to better or to give up a house, or a right in it, is capital."
        )
        ask = rule_as("running cost", "purchase cost")
    return either(case.all(Kind.RUNNING, "professional"), case.purchase, says, ask, third)


@rule(
    "A",
    "hire-not-buy",
    "common practice; BIM45351 for hire purchase",
    USUAL,
    "practice",
    verbs="hired",
    flips=("the hire ends in your owning it",),
    keep=("the hire agreement",),
)
def hire_not_buy(case: Case) -> Said:
    """Equipment rented for use in the let."""
    if case.thing.again == "job" or not case.known:
        return None
    return Answer(
        case.all(Kind.RUNNING, case.thing.category or "other"), "Hired, not bought: the hire is a running cost."
    )


FIRST_STEP = "it was the first step of an improvement (then add `making way for …`)"


@rule(
    "A",
    "running-service",
    "PIM2076",
    CLEAR,
    "head",
    flips=(FIRST_STEP, "the house could not be let as bought until it was done"),
    keep=("a bill that says what was done",),
)
def running_service(case: Case) -> Said:
    """Cleaning, clearing, servicing, inspecting, certifying: nothing new is left behind."""
    service = case.nature == "service" and case.thing.again == "run"
    if case.verb not in ("cleaned", "cleared", "serviced", *LOOKED) and not service:
        return None
    if case.verb in ("sold", "scrapped", "took home", "received", "hired", "moved", "converted", "extended"):
        return None
    parts = case.all(Kind.RUNNING, upkeep_class(case))
    clears = case.verb in ("cleared", "cleaned") or case.thing.name in ("rubbish", "cleaning", "gardening")
    if clears and case.as_bought == "not lettable" and not case.let_before and case.nature != "garden":
        if case.got_how in FREE:
            asked = either(
                parts,
                case.no_relief,
                "Clearing and cleaning are upkeep, but this house could not be let as it came to you. No price was "
                "paid that this could be part of, and nothing of it can be seen in the house when it is sold: done to "
                "make it fit to let, or for the estate, it counts nowhere.",
                rule_as("running cost", "no relief"),
            )
            return replace(asked, flips=(FIRST_STEP,))
        return either(
            parts,
            case.purchase,
            "Clearing and cleaning are upkeep, but this house could not be let as bought, and this "
            "may have been part of making it so.",
            rule_as("running cost", "purchase cost"),
        )
    says = "Upkeep that leaves nothing new behind is a running cost."
    if not clears:  # a certificate is one whatever the house was
        return Answer(parts, says, flips=(FIRST_STEP,))
    remade = work_to_come(case) if case.nature != "garden" else ""
    if remade:
        says += f" Was it the first step of the work that came soon after ({remade})? Then it goes with that."
        return Answer(parts, says, USUAL)
    return Answer(parts, says)


def work_to_come(case: Case) -> str:
    """What was converted, extended or altered in the house in the weeks after; nothing where nothing was."""
    history = case.history
    for _, thing, position in sorted(history.jobs_near(case.house, case.position, SOON)):
        line = history.items[position].line
        if line.verb in ("converted", "extended", "altered") and line.day.first >= case.day:
            return thing
    return ""


def upkeep_class(case: Case) -> str:
    """The class of upkeep: what the thing's own is for services, else by the verb."""
    if case.nature in ("service", "certificate") and case.thing.category:
        return case.thing.category
    if case.verb in ("cleaned", "cleared"):
        return "services"
    return "repairs" if case.verb == "serviced" else "professional"


@rule(
    "A",
    "business-miles",
    "ITTOIA 2005 s.94D-94G through s.272, s.272ZA; BIM75005",
    CLEAR,
    "read",
    verbs="drove",
    flips=(
        "you claim what the car really costs instead",
        "the trip was partly private",
    ),
    keep=("a log of day, miles and purpose",),
)
def business_miles(case: Case) -> Said:
    """A trip for the let, at so much a mile."""
    if case.position not in case.history.miles:
        return either(
            case.all(Kind.RUNNING, "travel"),
            case.no_relief,
            "No rate for a mile is known for this year, so neither is what the trip comes to.",
        )
    if case.before_owning:
        return either(
            case.all(Kind.RUNNING, "travel"),
            case.no_relief,
            "A trip before you owned the house may have been for buying it, which is no running cost.",
            rule_as("running cost", "no relief"),
        )
    return Answer(
        case.all(Kind.RUNNING, "travel"), "Miles driven for the letting come off at the rate of that tax year."
    )


@rule(
    "A",
    "finance-cost",
    "ITTOIA 2005 s.272A, s.274A",
    CLEAR,
    "read",
    verbs=MONEY_OUT + ", repaid",
    flips=("the loan was spent on something else",),
    keep=("the lender's yearly statement",),
)
def finance_cost(case: Case) -> Said:
    """Interest and the cost of getting a loan for a let home."""
    if case.thing.kind != "finance" and case.thing.category != "finance_residential":
        return None
    parts = case.all(Kind.RUNNING, "finance_residential")
    loan = any(loan.house == case.house for loan in case.history.book.loans.values())
    if case.line.thing.lower() in VALUED and not (case.line.purpose or loan):
        return either(
            parts,
            case.purchase,
            "Who wanted the valuation? A lender's is a cost of the loan, and your book tells of no loan on this house; "
            "one to buy it, to extend its lease or to sell it counts when it is sold.",
            (" for loan", " for purchase", " for sale"),
        )
    return Answer(parts, "A cost of borrowing for a let home: it does not come off the rents but lowers the tax bill.")


@rule(
    "A",
    "runs-the-letting",
    "ITTOIA 2005 s.34, s.272, s.272ZA; HMRC property return help text",
    CLEAR,
    "read",
    flips=("part of it was private",),
    keep=("the bill",),
    verbs=MONEY_OUT + ", wrote off",
)
def runs_the_letting(case: Case) -> Said:
    """The ordinary costs of letting, each in its class."""
    if case.verb == "wrote off":
        ways = case.history.lets.bases(case.house, case.day)
        if "accruals" in ways:  # of an owner by payment such a row never counts, whatever its class
            says = "On accruals the rent counted when it fell due, so what will never come comes off now."
            if len(ways) > 1:
                says += " For an owner who accounts by payment it was never income, and nothing comes off."
            return Answer(case.all(Kind.RUNNING, "other"), says)
        return Answer(
            case.all(Kind.IGNORED), "On the cash basis rent that never came was never income, so nothing comes off."
        )
    if case.thing.kind == "cost" or (case.nature in ("service", "certificate") and case.thing.again == "run"):
        if case.thing.name in LICENCES:
            says = f"Taken as an ordinary cost of letting, as most do ({case.what}); no page of the tax office says it."
            return Answer(case.running, says, USUAL)
        return Answer(case.running, f"An ordinary cost of letting ({case.what}).")
    if not case.line.things and case.line.who and case.line.who.name in case.history.book.councils:
        return Answer(
            case.all(Kind.RUNNING, "premises"),
            "A council's bill with nothing else said is taken as council tax.",
            USUAL,
        )
    return None
