"""Measures as they were written before they had ids."""

from __future__ import annotations

from collections.abc import Mapping

_FORMS: Mapping[str, str] = {
    **{
        form.format(what): f"{name}/{what}"
        for what in ("slot", "groove")
        for form, name in (
            ("{} width", "channel-width"),
            ("{} depth", "channel-depth"),
            ("wall beside the {}", "channel-wall"),
            ("from the face side to the {}", "to-channel"),
        )
    },
    **{
        form.format(side): f"{name}/{side}"
        for side in ("face", "back")
        for form, name in (
            ("from the {} to the far cheek", "to-far-cheek"),
            ("shoulder to shoulder, on the {}", "shoulders"),
            ("from the end to the shoulder, on the {}", "to-shoulder"),
            ("left under the {}", "under-housing"),
        )
    },
    "tenon thickness": "tenon",
    "tenon width": "tenon-width",
    "shoulder to shoulder": "shoulders",
    "from the end to the shoulder": "to-shoulder",
    "shoulder depth": "shoulder-depth",
    "edge shoulder depth": "edge-shoulder-depth",
    "from the end to the housing": "to-housing",
    "housing width": "housing-width",
    "from the end to the mitre, along the outside edge": "to-mitre",
    "mitre depth": "mitre-depth",
    "tongue thickness": "tongue",
    "lip beside the rebate": "lip",
    "how far the rebate reaches in": "rebate-reach",
    "width of the rebate": "rebate-width",
    "depth of the cut": "flat-depth",
}
"""Those that a saved setting could be tried by: with a leaning blade none was kept."""


def measure_now(text: str) -> str:
    """The text of a measure as it is written now; any other text is left as it is.

    >>> measure_now("slot width"), measure_now("channel-width/slot"), measure_now("")
    ('channel-width/slot', 'channel-width/slot', '')
    """
    return _FORMS.get(text, text)
