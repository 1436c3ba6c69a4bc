"""The look: butcher's paper, brown ink, mahogany for action, and a theme for full sun.

Colours go to controls by role, never by value, so that a change of theme is one change:

=====================  ==========================================
role                   colour
=====================  ==========================================
`PRIMARY`              mahogany: the thing to do
`SECONDARY`            mustard: wants attention
`TERTIARY`             pickle green: done, within limits
`ERROR`                red: danger only
`SURFACE…`             paper, from the page down to a raised card
=====================  ==========================================
"""

from typing import Literal

import flet as ft

ThemeName = Literal["auto", "light", "dark", "outdoor"]

TEXT_FONT = "Brinewright Text"
GAP = 12
TARGET = 52
"""Least height of anything to touch [px]; design: at least 48."""

LIGHT = ft.ColorScheme(
    primary="#7A2E1F",
    on_primary="#FFF8EC",
    primary_container="#F0D8C6",
    on_primary_container="#3B120A",
    secondary="#8A5A00",
    on_secondary="#FFFFFF",
    secondary_container="#F7DFA6",
    on_secondary_container="#332100",
    tertiary="#3F6224",
    on_tertiary="#FFFFFF",
    tertiary_container="#DCE9C4",
    on_tertiary_container="#152705",
    error="#A8121A",
    on_error="#FFFFFF",
    error_container="#FBDAD5",
    on_error_container="#410005",
    surface="#F6EFE2",
    on_surface="#1E1712",
    on_surface_variant="#54463A",
    outline="#85756A",
    outline_variant="#D5C7B2",
    surface_container_lowest="#FFFCF5",
    surface_container_low="#FBF5E9",
    surface_container="#F0E7D6",
    surface_container_high="#EADFCB",
    surface_container_highest="#E3D6BF",
    inverse_surface="#33291F",
    on_inverse_surface="#FAF1E2",
    inverse_primary="#F0A98F",
    surface_tint="#F6EFE2",
    shadow="#1E1712",
    scrim="#000000",
)

DARK = ft.ColorScheme(
    primary="#EFA58A",
    on_primary="#3E1207",
    primary_container="#5C2416",
    on_primary_container="#FFDBCD",
    secondary="#EDBE5A",
    on_secondary="#3A2700",
    secondary_container="#55400F",
    on_secondary_container="#FFE4A8",
    tertiary="#AECB86",
    on_tertiary="#1C3305",
    tertiary_container="#34481E",
    on_tertiary_container="#DDF0BF",
    error="#FFB4AB",
    on_error="#5F0006",
    error_container="#7A1016",
    on_error_container="#FFDAD5",
    surface="#1A1410",
    on_surface="#F1E6D6",
    on_surface_variant="#CDBDAB",
    outline="#978676",
    outline_variant="#4A3E33",
    surface_container_lowest="#120D0A",
    surface_container_low="#221B15",
    surface_container="#28201A",
    surface_container_high="#332921",
    surface_container_highest="#3E342A",
    inverse_surface="#F1E6D6",
    on_inverse_surface="#2B221B",
    inverse_primary="#7A2E1F",
    surface_tint="#1A1410",
    shadow="#000000",
    scrim="#000000",
)

OUTDOOR = ft.ColorScheme(
    primary="#4A0F05",
    on_primary="#FFFFFF",
    primary_container="#FFE3D6",
    on_primary_container="#2A0500",
    secondary="#5C3A00",
    on_secondary="#FFFFFF",
    secondary_container="#FFD975",
    on_secondary_container="#000000",
    tertiary="#1F4208",
    on_tertiary="#FFFFFF",
    tertiary_container="#D2F0AC",
    on_tertiary_container="#000000",
    error="#8C0009",
    on_error="#FFFFFF",
    error_container="#FFDAD5",
    on_error_container="#000000",
    surface="#FFFFFF",
    on_surface="#000000",
    on_surface_variant="#1A1A1A",
    outline="#000000",
    outline_variant="#4D4D4D",
    surface_container_lowest="#FFFFFF",
    surface_container_low="#FFFFFF",
    surface_container="#FFFFFF",
    surface_container_high="#F2F2F2",
    surface_container_highest="#E6E6E6",
    inverse_surface="#000000",
    on_inverse_surface="#FFFFFF",
    inverse_primary="#FFB59D",
    surface_tint="#FFFFFF",
    shadow="#000000",
    scrim="#000000",
)


def _theme(scheme: ft.ColorScheme) -> ft.Theme:
    still = ft.PageTransitionTheme.NONE
    return ft.Theme(
        color_scheme=scheme,
        font_family=TEXT_FONT,
        scaffold_bgcolor=scheme.surface,
        # Flet's own choice is tighter where there is a mouse; wet fingers want the same everywhere.
        visual_density=ft.VisualDensity.STANDARD,
        page_transitions=ft.PageTransitionsTheme(
            android=still, ios=still, linux=still, macos=still, windows=still
        ),
    )


def dress(page: ft.Page, name: ThemeName) -> None:
    """Put the theme the cook chose on the page; "auto" follows the phone."""
    page.theme = _theme(OUTDOOR if name == "outdoor" else LIGHT)
    page.dark_theme = _theme(DARK)
    page.theme_mode = {
        "auto": ft.ThemeMode.SYSTEM,
        "light": ft.ThemeMode.LIGHT,
        "dark": ft.ThemeMode.DARK,
        "outdoor": ft.ThemeMode.LIGHT,
    }[name]
