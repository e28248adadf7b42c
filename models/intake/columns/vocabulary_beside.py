"""Columns of a sold history that are no columns of ours but say what the others mean.

Common practice, no source.
"""

from models.intake.cells.word_lists import word_list

BESIDE: dict[str, tuple[str, ...]] = {
    "kind": word_list("""
        transaction type; record type; entry type; row type; type; type transaction; kind; kind of entry;
        art; buchungsart; vorgang; fee type; event
    """),
    "left": word_list("""
        quantity left; qty left; left; units left; quantity available; available quantity; available qty;
        qty available; available; units available; quantity remaining; remaining quantity; remaining; in
        stock; stock; verfügbar; verfügbare menge; noch verfügbar; disponible; restant
    """),
    "sold_count": word_list("""
        quantity sold; sold quantity; qty sold; sold qty; units sold; sold units; number sold; verkaufte menge;
        verkaufte anzahl; quantite vendue; cantidad vendida; sold; verkauft; verkocht; vendus; vendidos; venduti;
        anzahl verkauft; verkaufte stuckzahl; verkaufte stuck; nombre vendus; nb vendus; unites vendues;
        unidades vendidas; quantita venduta; pezzi venduti; aantal verkocht; verkochte aantallen
    """),
    "tax": word_list("""
        sales tax; tax; vat; tax collected; sales tax collected; tax amount; vat amount; gst; mwst;
        umsatzsteuer; tva; iva
    """),
    "shipping": word_list("""
        shipping; postage; delivery; shipping amount; postage amount; shipping fee; shipping fees; shipping total;
        postage total; delivery fee; delivery charge; shipping charges; versand; versandkosten; versandgebuhr; porto;
        portokosten; port; frais port; frais envoi; frais livraison; livraison; envio; gastos envio; spedizione; spese
        spedizione; verzendkosten; verzending
    """),
    "currency": word_list("""
        currency; sale currency; sold currency; currency code; order currency; transaction currency; listing
        currency; währung; devise; moneda; valuta
    """),
    "paid_currency": word_list("""
        payout currency; paid currency; payment currency; settlement currency; currency paid;
        auszahlungswährung
    """),
    "ended_on": word_list("""
        end date; ended; ended on; date ended; end time; listing ended; listing end date; ends; beendet am;
        beendet
    """),
    "variation": word_list("""
        variation; variation details; variations; variant; variant title; item variation; option; options;
        variante; ausführung
    """),
    "accepted_offer": word_list("""
        offer accepted; best offer accepted; accepted best offer; accepted offer price; accepted offer
        amount; angenommenes angebot; angenommener preisvorschlag; offre acceptee; oferta aceptada; offerta accettata;
        geaccepteerd bod
    """),
    "discount": word_list("""
        discounts; discount amount; line discount; item discount; order discount; total discount; total discounts;
        rabatt; rabatte; remise; remises; descuento; descuentos; sconto; sconti; korting
    """),
    "amount": word_list("""
        amount; net amount; gross amount; transaction amount; total amount; fee amount; betrag; montant;
        importe; importo
    """),
}
NOT_IN_SALES = ("amount",)  # says what an amount is only where every row says what kind it is
