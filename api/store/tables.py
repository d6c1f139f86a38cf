"""The tables. Sizes in tenths of a millimetre, money in pence, times in seconds since 1970 (UTC).

Documents are kept as the JSON text they were given or answered in: what was planned stays what the
saw cuts, whatever a later version of the program would write.
"""

from __future__ import annotations

import sqlalchemy as sa

metadata = sa.MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
        "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
        "pk": "pk_%(table_name)s",
    }
)

EVENT_KINDS = ("racked", "reserved", "released", "used", "scrapped", "adjusted")
PLAN_STATES = ("planning", "draft", "confirmed", "undone", "dropped")
ORDER_STATES = ("draft", "placed", "part received", "received", "withdrawn")
RUN_STATES = ("queued", "running", "done", "cancelled", "failed")


def _one_of(column: str, values: tuple[str, ...]) -> str:
    return f"{column} IN ({', '.join(repr(value) for value in values)})"


def _id() -> sa.Column[str]:
    return sa.Column("id", sa.String(40), primary_key=True)


def _firm() -> sa.Column[str]:
    return sa.Column("firm", sa.ForeignKey("firms.id"), nullable=False)


def _time(name: str, *, nullable: bool = False) -> sa.Column[float]:
    return sa.Column(name, sa.Double, nullable=nullable)


def _text(name: str, *, nullable: bool = False) -> sa.Column[str]:
    return sa.Column(name, sa.Text, nullable=nullable)


def _number(
    name: str, *, nullable: bool = False, default: str | None = None, primary_key: bool = False
) -> sa.Column[int]:
    return sa.Column(
        name,
        sa.BigInteger,
        nullable=nullable,
        server_default=default,
        primary_key=primary_key,
        autoincrement=False,
    )


firms = sa.Table(
    "firms",
    metadata,
    _id(),
    sa.Column("name", sa.String(200), nullable=False, unique=True),
    _time("created"),
    # Turns taken by the queue: the firm that was served longest ago goes first.
    _number("last_turn", default="0"),
    _number("last_label", default="0"),
)
keys = sa.Table(
    "keys",
    metadata,
    _id(),
    _firm(),
    sa.Column("name", sa.String(200), nullable=False),
    sa.Column("hash", sa.String(64), nullable=False, unique=True),
    sa.Column("roles", sa.String(100), nullable=False),
    _time("created"),
    _time("revoked", nullable=True),
)
jobs = sa.Table(
    "jobs",
    metadata,
    _id(),
    _firm(),
    sa.Column("name", sa.String(200), nullable=False),
    _text("document"),
    _number("version"),
    _time("created"),
    _time("changed"),
    sa.UniqueConstraint("firm", "name"),
)
walls = sa.Table(
    "walls",
    metadata,
    _id(),
    _firm(),
    sa.Column("job", sa.ForeignKey("jobs.id"), nullable=False),
    _text("document"),
    _number("version"),
    _time("created"),
    _time("changed"),
    sa.Index(None, "firm", "created"),
    sa.Index(None, "job"),
)
price_books = sa.Table(
    "price_books",
    metadata,
    _id(),
    _firm(),
    sa.Column("name", sa.String(200), nullable=False),
    _number("version"),
    sa.Column("valid_from", sa.String(10), nullable=False),
    _text("document"),
    _time("created"),
    sa.UniqueConstraint("firm", "name", "version"),
)
runs = sa.Table(
    "runs",
    metadata,
    _id(),
    _firm(),
    sa.Column("kind", sa.String(10), nullable=False),
    sa.Column("state", sa.String(10), nullable=False),
    sa.Column("who", sa.String(200), nullable=False),
    _text("document"),
    sa.Column("idempotency_key", sa.String(200)),
    sa.Column("body_hash", sa.String(64), nullable=False),
    sa.Column("takes_rack", sa.Boolean, nullable=False),
    _time("seconds"),
    _time("created"),
    _time("started", nullable=True),
    _time("ended", nullable=True),
    _time("deadline", nullable=True),
    sa.Column("lease_owner", sa.String(100)),
    _time("lease_until", nullable=True),
    _number("attempt", default="0"),
    sa.Column("cancel", sa.Boolean, nullable=False, server_default=sa.false()),
    _number("cost", nullable=True),
    _number("bound", nullable=True),
    _number("layouts", nullable=True),
    _time("spent", nullable=True),
    _text("problem", nullable=True),
    # What was found where that is no plan.
    _text("result", nullable=True),
    sa.CheckConstraint(_one_of("state", RUN_STATES), name="state"),
    sa.UniqueConstraint("firm", "idempotency_key"),
    sa.Index(None, "state", "firm", "created"),
    sa.Index(None, "firm", "created"),
)
batches = sa.Table(
    "batches",
    metadata,
    _id(),
    _firm(),
    sa.Column("run", sa.ForeignKey("runs.id"), nullable=False, unique=True),
    _text("jobs"),
    _time("created"),
    sa.Index(None, "firm", "created"),
)
plans = sa.Table(
    "plans",
    metadata,
    _id(),
    _firm(),
    sa.Column("run", sa.ForeignKey("runs.id"), nullable=False, unique=True),
    sa.Column("state", sa.String(10), nullable=False),
    _number("version"),
    _text("request", nullable=True),
    _text("plan", nullable=True),
    _text("extra", nullable=True),
    _number("cost", nullable=True),
    _number("bound", nullable=True),
    _time("created"),
    _time("changed"),
    sa.CheckConstraint(_one_of("state", PLAN_STATES), name="state"),
    sa.Index(None, "firm", "created"),
)
drawings = sa.Table(
    "drawings",
    metadata,
    sa.Column("plan", sa.ForeignKey("plans.id"), primary_key=True),
    sa.Column("name", sa.String(200), primary_key=True),
    _number("place"),
    _text("title"),
    sa.Column("packed", sa.LargeBinary, nullable=False),
)
orders = sa.Table(
    "orders",
    metadata,
    _id(),
    _firm(),
    # A plan may be ordered from two merchants.
    sa.Column("plan", sa.ForeignKey("plans.id"), nullable=False),
    sa.Column("state", sa.String(20), nullable=False),
    _number("version", default="1"),
    _text("document"),
    _text("csv"),
    _time("created"),
    _time("changed"),
    sa.CheckConstraint(_one_of("state", ORDER_STATES), name="state"),
    sa.Index(None, "firm", "created"),
    sa.Index(None, "plan"),
)
# What came for an order, only ever added: one typed wrong is taken back by another that undoes it.
deliveries = sa.Table(
    "deliveries",
    metadata,
    _id(),
    _firm(),
    sa.Column("order", sa.ForeignKey("orders.id"), nullable=False),
    _number("seq"),
    sa.Column("who", sa.String(200), nullable=False),
    _time("created"),
    _text("document"),
    sa.Column("idempotency_key", sa.String(200)),
    sa.Column("body_hash", sa.String(64), nullable=False),
    # The run that plans the rest of the plan anew, where one was asked for with it.
    sa.Column("run", sa.ForeignKey("runs.id")),
    sa.UniqueConstraint("order", "seq"),
    sa.UniqueConstraint("firm", "idempotency_key"),
)
# What a piece is never changes; where it is and whose follows from its events.
offcuts = sa.Table(
    "offcuts",
    metadata,
    sa.Column("firm", sa.ForeignKey("firms.id"), primary_key=True),
    sa.Column("label", sa.String(120), primary_key=True),
    sa.Column("material", sa.String(200), nullable=False),
    _number("length", nullable=True),
    _number("width", nullable=True),
    _number("height", nullable=True),
    sa.Column("place", sa.String(200), nullable=False),
    sa.CheckConstraint(
        "(length > 0 AND width IS NULL AND height IS NULL)"
        " OR (length IS NULL AND width > 0 AND height > 0)",
        name="sizes",
    ),
)
rack_events = sa.Table(
    "rack_events",
    metadata,
    sa.Column(
        "id",
        sa.BigInteger().with_variant(sa.Integer, "sqlite"),
        primary_key=True,
        autoincrement=True,
    ),
    _firm(),
    sa.Column("label", sa.String(120), nullable=False),
    # The piece's own count of events. Two writers who both saw n events both write n + 1, and the
    # database lets one of them: that, not a lock, is why no piece is ever held twice.
    _number("seq"),
    sa.Column("kind", sa.String(10), nullable=False),
    _number("on_rack"),
    _number("held"),
    sa.Column("plan", sa.ForeignKey("plans.id")),
    sa.Column("who", sa.String(200), nullable=False),
    _time("at"),
    _text("why"),
    sa.ForeignKeyConstraint(["firm", "label"], ["offcuts.firm", "offcuts.label"]),
    sa.UniqueConstraint("firm", "label", "seq"),
    sa.CheckConstraint(_one_of("kind", EVENT_KINDS), name="kind"),
    sa.CheckConstraint("on_rack IN (-1, 0, 1) AND held IN (-1, 0, 1)", name="steps"),
    sa.Index(None, "plan"),
)
# What a plan goes on with after a mishap; the plan before is continued while this one lives.
continuations = sa.Table(
    "continuations",
    metadata,
    sa.Column("plan", sa.ForeignKey("plans.id"), primary_key=True),
    _firm(),
    sa.Column("continues", sa.ForeignKey("plans.id"), nullable=False),
    # The last tick that it was planned from.
    _number("marks"),
    sa.Index(None, "continues"),
)
# Ticks at the saw. A tick is named by the phone that made it: sent twice, it is one.
ticks = sa.Table(
    "ticks",
    metadata,
    sa.Column("plan", sa.ForeignKey("plans.id"), primary_key=True),
    _number("seq", primary_key=True),
    _firm(),
    sa.Column("tick", sa.String(64), nullable=False),
    sa.Column("who", sa.String(200), nullable=False),
    _time("at"),
    _text("document"),
    sa.UniqueConstraint("plan", "tick"),
)
audit = sa.Table(
    "audit",
    metadata,
    sa.Column(
        "id",
        sa.BigInteger().with_variant(sa.Integer, "sqlite"),
        primary_key=True,
        autoincrement=True,
    ),
    _firm(),
    sa.Column("who", sa.String(200), nullable=False),
    _time("at"),
    sa.Column("action", sa.String(40), nullable=False),
    sa.Column("thing", sa.String(200), nullable=False),
    sa.Index(None, "firm", "at"),
)
