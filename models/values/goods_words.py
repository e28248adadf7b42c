"""Which words tell a kind of goods?  Whole words, any case, accents aside; a last -s or -es may follow.

Never a maker's name: kinds are told by what the goods are.  Words that need others beside them are in
`goods_together`.  Common practice, no source, but for what `goods_kinds` names.  The lists are our own and not
complete: a line without any of these words has not been found to be safe.
"""

from collections.abc import Mapping
from types import MappingProxyType

Words = Mapping[str, Mapping[str, str]]  # kind -> language -> words and phrases, comma between

WORDS: Words = MappingProxyType({
    "child_seat": {
        "en": "child seat, car seat, carseat, booster seat, infant carrier seat, child restraint, "
        "infant cs, convertible cs, toddler cs, cs base, baby capsule",
        "de": "kindersitz, autokindersitz, babyschale, sitzerhohung",
        "fr": "siege auto, rehausseur",
        "es": "silla de coche, silla de auto, alzador infantil",
        "it": "seggiolino auto, seggiolino da auto",
    },
    "helmet": {
        "en": "helmet, hard hat",
        "de": "fahrradhelm, motorradhelm, skihelm, reithelm, kinderhelm, schutzhelm, bauhelm, reiterhelm, integralhelm",
        "fr": "casque de velo, casque velo, casque moto, casque de moto, casque de ski",
        "es": "casco, cascos",
        "it": "casco, caschi",
    },
    "crib": {
        "en": "crib, bassinet, baby cot, travel cot, cot bed, bedside sleeper, drop side cot, moses basket, "
        "pack and play, co sleeper",
        "de": "babybett, gitterbett, kinderbett, reisebett, stubenwagen",
        "fr": "lit bebe, lit a barreaux, berceau",
        "es": "cuna, moises",
        "it": "culla, lettino neonato",
    },
    "banned_sleep": {
        "en": "crib bumper, cot bumper, inclined sleeper, inclined infant sleeper, infant inclined sleeper",
        "de": "bettnestchen",
        "fr": "tour de lit bebe",
        "es": "chichonera",
        "it": "paracolpi culla, paracolpi lettino",
    },
    "infant_formula": {
        "en": "infant formula, baby formula, toddler formula, formula milk, infant milk, follow on milk, "
        "toddler milk, baby milk, growing up milk",
        "de": "babymilch, sauglingsmilch, folgemilch, anfangsmilch",
        "fr": "lait infantile, lait bebe, lait maternise",
        "es": "leche infantil, formula infantil, leche de formula",
        "it": "latte in polvere neonato, latte artificiale",
    },
    "medicine": {
        "en": "medicine, medication, ibuprofen, acetaminophen, paracetamol, aspirin, antihistamine, antacid, "
        "antibiotic, cough syrup, cold and flu, cold flu, pain relief tablet, pain reliever, pain killer, "
        "painkiller, laxative, eye drops, nasal spray, insulin, prescription only, rx only, "
        "cough drop, lozenge, naproxen, loratadine, cetirizine, diphenhydramine, loperamide, hydrocortisone, "
        "fever reducer, allergy relief, decongestant, cough suppressant",
        "de": "arzneimittel, medikament, medikamente, schmerzmittel, hustensaft, augentropfen, nasenspray",
        "fr": "medicament, antidouleur, sirop pour la toux, collyre",
        "es": "medicamento, analgesico, jarabe para la tos",
        "it": "medicinale, medicinali, farmaco, farmaci, antidolorifico, collirio",
    },
    "cosmetics": {
        "en": "cosmetic, makeup, lipstick, lip gloss, lip balm, mascara, eyeliner, eyeshadow, eye "
        "shadow, foundation spf, liquid foundation, concealer, face cream, moisturizer, moisturiser, face "
        "serum, facial serum, sunscreen, skincare, skin care, face mask cream, nail polish, deodorant, "
        "shampoo, body lotion, hand cream",
        "de": "kosmetik, lippenstift, wimperntusche, lidschatten, gesichtscreme, sonnencreme, nagellack, "
        "handcreme",
        "fr": "cosmetique, maquillage, rouge a levres, fard a paupieres, creme visage, vernis a ongles",
        "es": "cosmetico, maquillaje, pintalabios, labial, rimel, crema facial, esmalte de unas",
        "it": "cosmetico, cosmetici, trucco, rossetto, ombretto, crema viso, smalto per unghie",
    },
    "mattress": {
        "en": "mattress",
        "de": "matratze, matratzen",
        "fr": "matelas",
        "es": "colchon",
        "it": "materasso",
    },
    "food": {
        "en": "snack, chocolate, candy, cookies, crisps, cereal, granola, protein powder, protein bar, vitamin, "
        "multivitamin, dietary supplement, food supplement, supplement, ground coffee, coffee beans, "
        "coffee pods, coffee capsules, tea bags, canned food, baby food, dog food, cat food, pet food, "
        "dog treats, cat treats, olive oil, pasta sauce, spices, energy drink, soft drink, best before, "
        "use by",
        "de": "lebensmittel, schokolade, susigkeiten, kekse, nahrungserganzung, nahrungserganzungsmittel, "
        "babynahrung, hundefutter, katzenfutter, kaffeebohnen, kaffeekapseln",
        "fr": "chocolat, bonbon, biscuit, complement alimentaire, croquettes, cafe en grains",
        "es": "galletas, caramelos, suplemento, complemento alimenticio, comida para perros, cafe en grano",
        "it": "cioccolato, biscotti, caramelle, integratore, integratori, cibo per cani, caffe in grani",
    },
    "often_recalled": {
        "en": "stroller, high chair, highchair, baby walker, baby swing, infant swing, rocker sleeper, infant "
        "sleeper, baby bouncer, bath seat, bunk bed, baby gate, play yard, playard, playpen, baby monitor, "
        "pacifier, teether, magnetic balls, magnet balls, fidget magnets, magnet set, water beads, "
        "space heater, portable heater, "
        "pressure cooker, air fryer, electric blanket, heating pad, hoverboard, e bike, ebike, electric "
        "bike, electric scooter, e scooter, hair dryer, dehumidifier, extension cord, power strip, "
        "ladder, dresser, chest of drawers, corded blind, treadmill",
        "de": "kinderwagen, hochstuhl, lauflernhilfe, laufstall, hochbett, heizlufter, schnellkochtopf, "
        "heizdecke, e roller, leiter, wickelkommode, babyphone",
        "fr": "poussette, chaise haute, trotteur, radiateur soufflant, cocotte minute, couverture chauffante, "
        "trottinette electrique",
        "es": "carrito de bebe, trona, andador, calefactor, olla a presion, patinete electrico",
        "it": "passeggino, seggiolone, girello, termoventilatore, pentola a pressione, monopattino elettrico",
    },
    "battery": {
        "en": "lithium, li ion, liion, lipo, li po, lithium ion, power bank, powerbank, portable charger, "
        "18650, 21700, cr2032, battery pack, replacement battery, laptop battery, phone battery, jump "
        "starter, un3480, un3481, un3090, power station, solar generator",
        "de": "lithiumbatterie, lithium akku, ersatzakku, zusatzakku, akkupack, werkzeugakku",
        "fr": "batterie externe, batterie lithium, batterie de rechange",
        "es": "bateria externa, bateria de litio",
        "it": "batteria esterna, batteria al litio",
    },
    "battery_inside": {
        "en": "rechargeable, wireless earbud, earbud, wireless headphone, bluetooth, smartphone, cell "
        "phone, mobile phone, laptop, notebook computer, chromebook, ultrabook, smart watch, "
        "smartwatch, fitness tracker, drone, hoverboard, e bike, ebike, electric bike, electric scooter, "
        "e scooter, vape, e cigarette, e reader, robot vacuum, electric toothbrush, electric shaver, "
        "action camera, digital camera, dash cam, handheld console, handheld vac, handheld vacuum, massage gun, "
        "video doorbell",
        "de": "akku, kabellos, handy, wiederaufladbar, e roller, elektroroller, drohne, saugroboter, "
        "elektrische zahnburste",
        "fr": "sans fil, telephone portable, ordinateur portable, tablette, montre connectee, trottinette "
        "electrique",
        "es": "inalambrico, recargable, telefono movil, ordenador portatil, tableta, patinete electrico, reloj "
        "inteligente",
        "it": "ricaricabile, senza fili, cellulare, monopattino elettrico, orologio intelligente",
    },
    "hazardous_post": {
        "en": "aerosol, spray paint, hairspray, hair spray, perfume, cologne, eau de toilette, eau de parfum, "
        "fragrance, nail polish, nail varnish, nail polish remover, acetone, hand sanitizer, hand "
        "sanitiser, rubbing alcohol, butane, propane, camping gas, gas canister, lighter, lighter fluid, "
        "safety matches, fire starter, paint thinner, turpentine, varnish, oil based paint, bleach, drain "
        "cleaner, oven cleaner, pesticide, insecticide, bug spray, insect repellent, wasp spray, pool "
        "chlorine, fireworks, sparklers, ammunition, pepper spray, shaving gel, shaving foam, spray "
        "deodorant, dry shampoo, brake cleaner, contact cleaner, refrigerant, fire extinguisher, spray foam, "
        "expanding foam, torch fuel, lamp oil, lamp fuel, camp fuel, fuel canister, gel fuel, kerosene, pool shock, "
        "chlorine tablet, weed killer, herbicide, co2 cylinder, co2 cartridge, gas cylinder, helium tank, oxygen "
        "canister, cream charger, airbag, ammo, road flare, flare kit, firestarter, wood stain",
        "de": "spruhdose, haarspray, parfum, nagellack, nagellackentferner, desinfektionsmittel, feuerzeug, "
        "gaskartusche, spiritus, verdunner, rohrreiniger, insektenspray, feuerwerk, pfefferspray, "
        "bremsenreiniger",
        "fr": "laque cheveux, vernis a ongles, dissolvant, briquet, cartouche de gaz, insecticide, feu d "
        "artifice, javel",
        "es": "laca para el pelo, quitaesmalte, mechero, encendedor, cartucho de gas, lejia, fuegos "
        "artificiales",
        "it": "lacca per capelli, profumo, smalto per unghie, acetone, accendino, cartuccia di gas, candeggina",
    },
    "often_copied": {
        "en": "replica, designer, handbag, hand bag, purse, wallet, luxury watch, wristwatch, wrist watch, sunglasses, "
        "sneakers, trainers, running shoes, basketball shoes, perfume, cologne, eau de toilette, eau de "
        "parfum, headphone, earbud, jersey, football shirt, memory card, microsd, micro sd, usb flash "
        "drive, ink cartridge, toner cartridge, phone charger, trading cards, booster box, game "
        "cartridge, razor blades, fine jewelry, jewellery, jewelry",
        "de": "handtasche, geldborse, armbanduhr, sonnenbrille, turnschuhe, sportschuhe, parfum, kopfhorer, "
        "trikot, speicherkarte, druckerpatrone, sammelkarten, schmuck",
        "fr": "sac a main, portefeuille, montre bracelet, lunettes de soleil, baskets, ecouteurs, casque audio, "
        "maillot de football, carte memoire, bijoux",
        "es": "bolso, cartera, reloj de pulsera, gafas de sol, zapatillas, auriculares, camiseta de futbol, "
        "tarjeta de memoria, joyas",
        "it": "borsetta, portafoglio, orologio da polso, occhiali da sole, scarpe da ginnastica, cuffie, "
        "auricolari, profumo, scheda di memoria, gioielli",
    },
    "personal_data": {
        "en": "laptop, notebook computer, chromebook, ultrabook, desktop computer, desktop pc, gaming pc, all "
        "in one pc, computer tower, mini pc, smartphone, cell phone, mobile phone, e "
        "reader, smart watch, smartwatch, fitness tracker, hard drive, hard disk, hdd, ssd, solid state "
        "drive, network storage, nas drive, usb flash drive, memory card, game console, video game console, "
        "digital camera, action camera, security camera, dash cam, router, smart speaker, smart display, "
        "smart tv, streaming stick, robot vacuum, multifunction printer, satnav, sat nav, "
        "gps navigator, gps navigation, dvr, nvr, digital video recorder, video doorbell, doorbell camera",
        "de": "handy, rechner, festplatte, spielkonsole, digitalkamera, uberwachungskamera, navigationsgerat, "
        "saugroboter",
        "fr": "telephone portable, ordinateur, ordinateur portable, tablette, disque dur, console de jeux, "
        "montre connectee",
        "es": "telefono movil, ordenador, tableta, disco duro, consola de videojuegos, reloj "
        "inteligente",
        "it": "cellulare, computer portatile, disco rigido, console per videogiochi, orologio intelligente",
    },
    "mains": {
        "en": "100v, 110v, 115v, 120v, 127v, 220v, 230v, 240v, 110 v, 120 v, 220 v, 230 v, 240 v, 110 volt, 120 "
        "volt, 220 volt, 230 volt, 240 volt, 110vac, 120vac, 220vac, 230vac, 240vac, uk plug, eu plug, us "
        "plug, au plug, 3 pin plug, 2 pin plug, european plug, british plug, american plug, voltage "
        "converter, step down transformer",
        "de": "schuko, eu stecker, uk stecker, us stecker",
        "fr": "prise eu, prise uk, prise us",
        "es": "enchufe eu, enchufe uk, enchufe us",
        "it": "spina eu, spina uk, spina schuko",
    },
})  # fmt: skip

UNSURE_CATEGORIES: str = (
    "costumes, costumes and accessories, dolls, dolls and accessories, doll accessories, action figures, figurines, "
    "pet supplies, dog supplies, cat supplies, books"
)  # in these, a word of goods that usually are not listed may name a toy, a costume or a pet's thing

CATEGORIES: Mapping[str, str] = MappingProxyType({  # a whole part of a category's path, in any case
    "child_seat": "car seats, child car seats, child seats, infant car seats, booster seats, kindersitze, "
    "sieges auto",
    "helmet": "helmets, bike helmets, bicycle helmets, motorcycle helmets, fahrradhelme, motorradhelme",
    "crib": "cribs, cribs and bassinets, bassinets, baby cots, babybetten",
    "infant_formula": "infant formula, baby formula, baby milk",
    "medicine": "medicine, medicines, medication, over the counter medicine, pharmacy, arzneimittel, "
    "medicaments",
    "cosmetics": "cosmetics, makeup, skin care, skincare, kosmetik, cosmetiques, cosmetica, cosmetici",
    "mattress": "mattresses, matratzen, matelas",
    "food": "food, grocery, groceries, food and beverage, food and drink, gourmet food, snacks, pet food, "
    "vitamins, vitamins and supplements, supplements, lebensmittel, alimentation, alimentacion, "
    "alimentari",
    "often_recalled": "strollers, high chairs, baby gear, nursery, nursery furniture, space heaters, kinderwagen",
    "battery": "power banks, powerbanks, lithium batteries",
    "battery_inside": "laptops, cell phones, mobile phones, smartphones, tablets, drones, cordless tools, e bikes, "
    "electric scooters, smart watches, smartwatches, earbuds",
    "hazardous_post": "fragrance, fragrances, perfume, perfumes, nail polish, aerosols, spray paint, parfum, "
    "profumi",
    "often_copied": "fragrance, fragrances, perfume, perfumes, handbags, designer handbags, watches, sunglasses, "
    "sneakers, trainers, athletic shoes, headphones, earbuds, jewelry, jewellery, trading cards, "
    "handtaschen",
    "personal_data": "laptops, computers, desktops, cell phones, mobile phones, smartphones, tablets, hard drives, "
    "smart watches, smartwatches, game consoles, video game consoles, computer und handys",
})  # fmt: skip
