"""What a fact, or a field of the job file, is called on screen and paper."""

from __future__ import annotations

# ours: the trade's words where the dotted name is not plain by itself. `names` are facts or fields of the job file.
TRADE_WORDS: dict[str, str] = {
    "days.demand": "share of the need on a day",
    "days.dirt": "dirt on a fouled screen",
    "days.ice": "ice on a day",
    "days.level": "lowest water",
    "days.temperature": "temperature of the water",
    "delivery.cut_in": "cut-in",
    "delivery.cut_out": "cut-out",
    "delivery.filters_clean": "loss of clean filters",
    "delivery.filters_dirty": "loss of dirty filters",
    "delivery.flow_control": "flow control valve",
    "delivery.height": "height of the tank's tee",
    "delivery.pipe_bears": "wall of the delivery pipe in the sun",
    "delivery.precharge": "air in the empty tank",
    "delivery.relief": "relief valve",
    "delivery.stock": "delivery pipe",
    "delivery.tank": "tank",
    "delivery.tank_bears": "the most the tank may hold",
    "delivery.tap_height": "height of the highest tap",
    "holding.arrangement": "what holds the water",
    "need.baths": "bathrooms",
    "need.drinking": "drinking",
    "need.flow": "flow needed",
    "need.people": "people",
    "need.season": "season",
    "pump.distance": "pump from the water's edge",
    "pump.height": "height of the pump",
    "pump.stock": "pump",
    "site.bed.kind": "bed",
    "site.bed.soft": "how far an oar sinks",
    "site.clarity.secchi": "depth at which a white disk fades",
    "site.cover_floor": "cover asked over the inlet",
    "site.dam_drawdown": "winter drawdown",
    "site.days": "days",
    "site.days.level": "level on winter days",
    "site.elevation": "height above the sea",
    "site.flood": "highest water",
    "site.kind": "kind of water",
    "site.levels.flood": "highest water",
    "site.levels.low": "lowest water",
    "site.levels.waves": "waves above the highest water",
    "site.levels.who": "who controls the level",
    "site.rules.asked": "when the authority was asked",
    "site.rules.call": "whom to call",
    "site.rules.drinking": "whether the authority was asked about drinking",
    "site.rules.permit": "permit",
    "site.rules.region": "region",
    "site.rules.screen": "screen rule",
    "site.screen_velocity": "screen rule",
    "site.waves": "waves above the highest water",
    "site.weather": "air pressure lost in a deep low",
    "stand.at": "the stand from the water's edge",
    "stand.depth": "water at the stand",
    "stand.form": "form of the stand",
    "stand.frame": "frame height",
    "stand.inlet.attitude": "way the inlet points",
    "stand.inlet.screen": "screen",
    "stand.inlet.stock": "foot valve",
    "stand.inlet_rise": "inlet above the riser",
    "stand.legs": "legs of the stand",
    "stand.riser": "riser",
    "stand.screen_open": "open share of the screen",
    "stand.sink": "how far the stand settles",
    "suction.along": "line's wander",
    "suction.bank_length": "suction line on the bank",
    "suction.bed_length": "suction line on the bed",
    "suction.buried_from": "suction line buried from",
    "suction.joints_above_water": "joints above the water",
    "suction.pocket_length": "suction line that air may stay in",
    "suction.stock": "suction pipe",
}


def plain_name(key: str) -> str:
    """A dotted name, or a key as the job file writes it, in plain words.

    >>> plain_name("stand.frame"), plain_name("[site.bed] kind"), plain_name("suction.length")
    ('frame height', 'bed', 'suction length')
    """
    dotted = key.replace("[", "").replace("] ", ".").replace("]", "")
    # The site is what most of it is about, and goes without saying.
    words = TRADE_WORDS.get(dotted) or dotted.removeprefix("site.").replace("_", " ").replace(".", " ")
    return " ".join(words.split())
