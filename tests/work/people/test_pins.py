from __future__ import annotations


def test_shop_opens(shop):
    from app.work.people.staff import staff_list

    assert [c.name for c in staff_list(shop.book)] == [
        "Ine Varloes",
        "Mirr Quistan",
        "Sanna Wickerel",
        "Tobbe Ruskamp",
    ]
