from app.colour.field import Field
from app.colour.one_tint import one_tint

BOARD, LEAN = list(range(24)), list(range(24, 48))


def field(lean_light: float, lean_u: float) -> Field:
    light, u = [0.0] * 24 + [lean_light] * 24, [0.1] * 24 + [lean_u] * 24
    return Field(8, 6, light, u, [0.0] * 48, u)


def test_things_of_one_colour_are_one_tint_and_meat_on_a_board_is_not() -> None:
    assert one_tint(field(-1.0, 0.1), [BOARD, LEAN])
    assert not one_tint(field(-1.0, 0.3), [BOARD, LEAN])


def test_nothing_is_said_of_what_is_too_dark_or_too_little() -> None:
    assert not one_tint(field(-3.0, 0.1), [BOARD, LEAN])
    assert not one_tint(field(-1.0, 0.1), [BOARD, LEAN[:5]])
    assert not one_tint(field(-1.0, 0.1), [])
