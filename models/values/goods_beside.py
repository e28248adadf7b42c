"""What hangs on goods of a kind and is none?  A helmet bag is no helmet: such words are passed over for that kind."""

from types import MappingProxyType

from models.values.goods_words import Words

AFTER: str = (
    "cover, case, bag, sleeve, stand, holder, mount, organizer, organiser, protector, cushion, mirror, hook, "
    "rack, lock, liner, charger, adapter, strap, band, skin, desk, table, tray, cooler, backpack, mat, "
    "cleaner, brush, sponge, box, cabinet, dispenser, topper, pad, encasement, sheet, sheets, bedding, "
    "mobile, skirt, blanket, quilt, bumper, clip, hanger, splitter, dock, enclosure, reader, light, visor, "
    "decal, sticker, ornament, headrest, toy, fan, knob, shelf, bookcase, tripod, gimbal, tip, jack, vanity, belt, "
    "pillow, storage, gap, massager, heater, warmer, back, vacuum, making, dish, binder"
)  # right after a word of the kinds below: something for it, not the thing
BEFORE: str = "toy, doll, dolls, costume, replica, pet, dog, empty, for"  # right before it
COUNTS: str = "of, pack, qty"  # right after `case`, `box` or `bag`: so many of the thing
WITH_BESIDE: tuple[str, ...] = (
    "child_seat", "helmet", "crib", "medicine", "cosmetics",
    "mattress", "often_recalled", "battery_inside", "often_copied", "personal_data",
)  # fmt: skip

BESIDE: Words = MappingProxyType({
    "child_seat": {
        "en": "car seat gap filler, car seat heater, heated car seat, massage car seat, car seat travel bag",
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
        "en": "mattress vacuum, mattress lifter, air mattress, mattress heater",
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
        "en": "mg tablet, ct tablet, count tablet, dishwasher tablet, cleaning tablet, water tablet, "
        "vitamin tablet, chewable tablet, "
        "earbud tips, cordless blind, cordless shade, drone landing pad, drone propeller",
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
        "en": "laptop battery, mg tablet, ct tablet, count tablet, dishwasher tablet, cleaning tablet, "
        "water tablet, vitamin tablet, "
        "chewable tablet, router bit, wood router, trim router, plunge router, palm router, cordless router",
    },
})  # fmt: skip
