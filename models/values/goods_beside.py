"""What hangs on goods of a kind and is none?  A helmet bag is no helmet: such words are passed over for that kind.

Where words leave it open (a helmet light, or a light helmet), the kinds that are not listed become a caution only.
Common practice, no source.
"""

from types import MappingProxyType

from models.values.goods_words import Words

AFTER: str = (
    "cover, case, bag, sleeve, stand, holder, mount, organizer, organiser, protector, mirror, hook, "
    "rack, lock, strap, charger, adapter, band, skin, desk, table, cooler, backpack, "
    "cleaner, brush, sponge, box, cabinet, dispenser, topper, pad, encasement, sheet, sheets, bedding, "
    "mobile, skirt, blanket, quilt, clip, hanger, splitter, dock, enclosure, reader, "
    "decal, sticker, ornament, toy, fan, knob, shelf, bookcase, tripod, gimbal, tip, jack, vanity, "
    "pillow, gap, massager, heater, warmer, vacuum, making, dish, binder, canopy, bowl, basin, pump, needle, "
    "syringe, headset, intercom, speaker, camera, container, mixer, maker, pitcher, notes, hammock, figurine"
)  # right after a word of the kinds below: something for it, not the thing
BETWEEN: str = (
    "canopy, travel, rail, strap, display, storage, wall, carry, carrying, rain, dust, hair, mosquito, protective, "
    "waterproof, fitted, pen, light, safety, head, neck"
)  # may stand between the thing and what goes with it: a helmet display case
PERHAPS_AFTER: str = (
    "light, back, bumper, belt, tray, storage, liner, visor, cushion, headrest, mat, bucket, compatible, "
    "display, bottle"
)  # right after it: something for it, or the thing itself
BEFORE: str = "toy, doll, dolls, costume, replica, pet, dog, empty"  # right before it
PERHAPS_BEFORE: str = "cat, puppy, kitten, rabbit"  # also a maker's or a pattern's name
PETS: str = "dog, cat, pet, puppy, kitten, rabbit, doll"  # behind `for`
PERHAPS_NEAR: str = (
    "costume, cosplay, halloween, toy, doll, dollhouse, figurine, figure, statue, nativity, collectible, "
    "collectable, memorabilia, ornament, keychain, keyring, poster, book, replica, decal, sticker, plush, playset, "
    "miniature, inflatable, inflating, pillow, replacement, spare, buckle, "
    "spielzeug, puppe, kostum, jouet, poupee, deguisement, juguete, muneca, disfraz, giocattolo, bambola, chien, perro"
)  # within a few words
NEAR: int = 3  # words
JOINS: str = "with, w, and, plus, includes, including, incl"  # what follows comes along with the thing
SHADES: str = "weight, blue, grey, gray, green, pink, brown, beige, purple, medium, tan, ivory, wood"  # after `light`
COUNTS: str = "of, pack, qty, ct, count, pk, pcs, pieces, units, ea"  # after `case`, `box` or `bag`: so many of it
SIZES: str = "in, inch, inches, cm, mm"  # after a number: how large, not how many
ADJECTIVES: str = "cordless, rechargeable, bluetooth, designer, replica"  # what follows them is the thing
SOLD_IN_BOXES: tuple[str, ...] = ("infant_formula", "medicine")
WITH_BESIDE: tuple[str, ...] = (
    "child_seat", "helmet", "crib", "infant_formula", "medicine", "cosmetics",
    "mattress", "often_recalled", "battery_inside", "often_copied", "personal_data",
)  # fmt: skip

BESIDE: Words = MappingProxyType({
    "child_seat": {
        "en": "car seat gap filler, car seat heater, heated car seat, massage car seat, car seat travel bag, "
        "car seat cushion",
    },
    "helmet": {
        "en": "mini helmet, helmet camera, helmet intercom, dress up helmet, helmet mask",
        "es": "casco antiguo",
        "it": "centro storico",
    },
    "crib": {
        "en": "crib mattress, crib rail cover, crib set toy, crib shoe, nativity crib, bassinet mattress, cot "
        "sheet, cot mobile, corn crib",
        "es": "cuna de juguete",
    },
    "infant_formula": {
        "en": "formula dispenser, formula container, formula mixer, formula pitcher, formula maker",
    },
    "medicine": {
        "en": "medicine ball, medicine bottle, medicine cup, medicine dropper, medicine wheel, medicine book",
    },
    "cosmetics": {
        "en": "shampoo bottle, nail polish dryer, makeup chair, makeup stool",
    },
    "mattress": {
        "en": "mattress vacuum, mattress lifter, air mattress, mattress heater, air bed mattress, "
        "inflatable mattress",
        "de": "luftmatratze, matratzenbezug, matratzenschoner, matratzenauflage",
        "fr": "protege matelas, surmatelas, matelas gonflable",
        "es": "protector de colchon, funda de colchon, colchon hinchable",
    },
    "food": {
        "en": "snack bowl, snack box, snack container, snack tray, snack cup, snack plate, chocolate fountain, "
        "chocolate mold, chocolate mould, chocolate brown, chocolate lab, candy dish, candy jar, candy "
        "cane ornament, candy mold, cereal bowl, cereal dispenser, cereal container, cookies jar, vitamin "
        "case, vitamin organizer, pet food bowl, pet food container, pet food dispenser, dog food bowl, "
        "dog food container, cat food bowl, cat food mat, baby food maker, baby food container, baby food "
        "processor, olive oil dispenser, oil sprayer, spices rack, spices jar, candy thermometer, energy "
        "drink holder, canned food rack, protein powder shaker",
    },
    "often_recalled": {
        "en": "rope ladder toy, air fryer basket, air fryer cookbook, dresser scarf",
    },
    "battery": {
        "en": "lithium grease",
    },
    "battery_inside": {
        "en": "ct tablet, count tablet, water tablet, cleaning tablet, cordless shade, "
        "earbud tips, drone landing pad, drone propeller",
    },
    "hazardous_post": {
        "en": "perfume bottle empty, empty perfume bottle, perfume atomizer, perfume tray, perfume organizer, "
        "fragrance free, lighter case, lighter holder, lighter weight, lighter shade, lighter color, "
        "lighter colour, bleach free, paint sprayer, nail polish rack, nail polish organizer, nail polish "
        "dryer, fire extinguisher cover, spray bottle, cigarette lighter adapter, car lighter, lighter "
        "socket, lighter plug, fragrance oil burner",
    },
    "often_copied": {
        "en": "designer baby, interior designer, web designer, earbud tips, jersey dress, jersey knit, jersey "
        "fabric, trading cards sleeves, perfume atomizer",
    },
    "personal_data": {
        "en": "laptop battery, ct tablet, count tablet, water tablet, cleaning tablet, router bit, wood router, "
        "trim router, plunge router, palm router, cordless router",
    },
})  # fmt: skip
