"""Which words tell a kind only beside others?  `Formula` is infant formula beside `toddler`, and none beside `shampoo`.

Our own rows, common practice, no source.  `*` stands for any words at all.
"""

from dataclasses import dataclass


@dataclass(frozen=True)
class Together:
    """A phrase that names its kinds where one of `sure` stands in the line, perhaps with one of `unsure`."""

    kinds: tuple[str, ...]
    phrases: str
    sure: str
    unsure: str = ""
    without: str = ""  # never where one of these stands in the line


_DEVICE = ("battery_inside", "personal_data")

TOGETHER: tuple[Together, ...] = (
    Together(
        ("infant_formula",), "formula",
        "infant, baby, toddler, newborn, preemie, rtf, hypoallergenic, lactose, colic, months",
        "oz, powder, powdered, organic, goat, milk, iron",
        "shampoo, conditioner, wash, lotion, soap, cream, cleaner, cleaning, detergent, spray, laundry, sunscreen, "
        "balm, wipes, toothpaste, polish, gummies, racing, diaper, rash, "
        "ointment, hair, skin, face, facial, wax, dog, cat, puppy, kitten, fertilizer, weed, deodorant, serum, pillow, "
        "remover, stain, glue, adhesive",
    ),
    Together(
        ("infant_formula",), "ready to feed, ready to use infant",
        "infant, baby, toddler, newborn, formula, oz", "*", "cat, dog, puppy, kitten, horse, bird, fish, reptile",
    ),
    Together(("child_seat",), "rear facing", "infant, baby, toddler, newborn, seat, capsule, convertible, birth", "",
             "camera, mirror, radar, light"),
    Together(("child_seat",), "travel system", "stroller, baby, infant, pram, pushchair, car"),
    Together(("child_seat",), "infant seat", "base, rear, car, latch, isofix, convertible", "*", "bath, tub, floor"),
    Together(("crib",), "cradle", "baby, infant, newborn, nursery, bedside", "wooden, rocking",
             "phone, cap, charger, charging, tool, pipe, wheel, scanner, tablet, watch"),
    Together(("helmet",), "helm", "fahrrad, motorrad, ski, reit, kinder, schutz, roller, sport, bau"),
    Together(("mattress",), "pillow top, pillowtop, euro top", "mattress", "",
             "pad, topper, protector, cover, encasement, sheet, sheets"),
    Together(("medicine",), "pain relief", "cream, gel, tablet, tablets, capsules, caplets, ointment, mg, roll, "
             "patches", "", "pillow, device, machine, insole, insoles, massager, brace, sock, socks, gloves"),
    Together(("medicine",), "tablet, capsule, caplet", "", "mg", "vitamin, vitamins, supplement, magnesium, collagen"),
    Together(("battery_inside",), "cordless", "*", "",
             "kettle, jug, blind, blinds, shades, curtain, curtains"),
    Together(
        _DEVICE, "tablet", "*", "",
        "mg, dishwasher, purification, purifying, chlorine, vitamin, vitamins, chewable, "
        "effervescent, denture, detergent, descaling, salt, bleach, septic, toilet, supplement, relief, pain, antacid",
    ),
    Together(_DEVICE, "phone", "locked, unlocked, sim, gb, android, 5g, 4g, lte, prepaid", "",
             "landline, cord, corded, grip, pouch, lens"),
    Together(("battery",), "battery", "mah, wh, ebike, scooter, drone, 18v, 20v, 36v, 40v, 48v", "",
             "charger, tester, organizer, organiser, holder, case, free, alkaline, lead"),
    Together(
        ("hazardous_post",), "battery", "car, lead, agm, sla, ups, marine, motorcycle, truck, mower, 12v", "",
        "charger, tester, maintainer, terminal, terminals, clamp, clamps, cable, cables, toy, ride, operated, powered, "
        "rc, remote, alkaline, lithium, nimh, holder, organizer",
    ),
    Together(("hazardous_post",), "air duster, gas duster, compressed gas, canned air", "*", "",
             "electric, cordless, rechargeable, hose"),
)  # fmt: skip
