"""The shell: which screen stands at which address, and the words that pass over all of them."""

import flet as ft

from app.screens.bench import Bench, here, use_bench, with_bench
from app.screens.journal.batch import BatchScreen
from app.screens.journal.batch_mix import BatchMixScreen
from app.screens.journal.compare import CompareScreen
from app.screens.journal.entry import CorrectScreen, EntryScreen
from app.screens.journal.journal import JournalScreen
from app.screens.journal.probe import ProbeScreen
from app.screens.journal.record_working import RecordWorkingScreen
from app.screens.journal.slice import SliceScreen
from app.screens.journal.storing import StoringScreen
from app.screens.journal.temperatures import TemperaturesScreen
from app.screens.journal.wrap import WrapScreen
from app.screens.kit.kit import KitScreen
from app.screens.kit.kit_things import ContainerScreen, SaltScreen
from app.screens.mix.blends import BlendScreen, BlendsScreen
from app.screens.mix.buying import BuyingScreen
from app.screens.mix.found_recipe import RecipeScreen
from app.screens.mix.how_long import DaysScreen
from app.screens.mix.mix import MixScreen
from app.screens.mix.profile import ProfileScreen
from app.screens.mix.shopping import ShoppingScreen
from app.screens.mix.soak import SoakScreen
from app.screens.mix.working import WorkingScreen
from app.screens.photos.gallery import GalleryScreen
from app.screens.photos.photo import PhotoScreen
from app.screens.photos.photo_bark import BarkScreen
from app.screens.photos.photo_beside import BesideScreen
from app.screens.photos.photo_face import FaceScreen
from app.screens.photos.photo_line import LineScreen
from app.screens.photos.photo_line_working import LineWorkingScreen
from app.screens.photos.photo_white import WhiteScreen
from app.screens.plan.calendar_file import calendar_standing, hand_out_all
from app.screens.plan.now import NowScreen
from app.screens.plan.plan import PlanScreen
from app.screens.plan.reminders import RemindersScreen
from app.screens.plan.repeat import RepeatScreen
from app.screens.plan.start_batch import StartScreen
from app.widgets import panels
from app.widgets.frame import STRIP, Act, quiet_button, side_button

ROUTES = [
    ft.Route(path="/", component=NowScreen),
    ft.Route(path="/mix", component=MixScreen),
    ft.Route(path="/mix/list", component=ShoppingScreen),
    ft.Route(path="/mix/start", component=StartScreen),
    ft.Route(path="/mix/days", component=DaysScreen),
    ft.Route(path="/mix/recipe", component=RecipeScreen),
    ft.Route(path="/mix/buy", component=BuyingScreen),
    ft.Route(path="/mix/blends", component=BlendsScreen),
    ft.Route(path="/mix/blends/new", component=BlendScreen),
    ft.Route(path="/mix/face", component=ProfileScreen),
    ft.Route(path="/mix/soak", component=SoakScreen),
    ft.Route(path="/mix/how/:key", component=WorkingScreen),
    ft.Route(path="/mix/:part/how/:key", component=WorkingScreen),
    ft.Route(path="/reminders", component=RemindersScreen),
    ft.Route(path="/compare", component=CompareScreen),
    ft.Route(path="/journal", component=JournalScreen),
    ft.Route(path="/journal/:batch", component=BatchScreen),
    ft.Route(path="/journal/:batch/add/:kind", component=EntryScreen),
    ft.Route(path="/journal/:batch/entry/:entry", component=CorrectScreen),
    ft.Route(path="/journal/:batch/mix", component=BatchMixScreen),
    ft.Route(path="/journal/:batch/heat", component=TemperaturesScreen),
    ft.Route(path="/journal/:batch/soak", component=SoakScreen),
    ft.Route(path="/journal/:batch/store", component=StoringScreen),
    ft.Route(path="/journal/:batch/compare", component=CompareScreen),
    ft.Route(path="/journal/:batch/:part/how/:key", component=RecordWorkingScreen),
    ft.Route(path="/journal/:batch/plan", component=PlanScreen),
    ft.Route(path="/journal/:batch/probe", component=ProbeScreen),
    ft.Route(path="/journal/:batch/wrap", component=WrapScreen),
    ft.Route(path="/journal/:batch/slice", component=SliceScreen),
    ft.Route(path="/journal/:batch/repeat", component=RepeatScreen),
    ft.Route(path="/journal/:batch/photos", component=GalleryScreen),
    ft.Route(path="/journal/:batch/photo/:photo", component=PhotoScreen),
    ft.Route(path="/journal/:batch/photo/:photo/white", component=WhiteScreen),
    ft.Route(path="/journal/:batch/photo/:photo/bark", component=BarkScreen),
    ft.Route(path="/journal/:batch/photo/:photo/line", component=LineScreen),
    ft.Route(path="/journal/:batch/photo/:photo/line/how/:key", component=LineWorkingScreen),
    ft.Route(path="/journal/:batch/photo/:photo/face", component=FaceScreen),
    ft.Route(path="/photos", component=GalleryScreen),
    ft.Route(path="/photos/beside/:one", component=BesideScreen),
    ft.Route(path="/photos/beside/:one/:other", component=BesideScreen),
    ft.Route(path="/kit", component=KitScreen),
    ft.Route(path="/kit/salt", component=SaltScreen),
    ft.Route(path="/kit/container", component=ContainerScreen),
]


def said_strip(bench: Bench) -> ft.Control | None:
    """What was just done, with the offer to take it back; or what is being worked on."""
    shown, route = bench.shown, here()
    ft.use_effect(lambda: bench.arrived(route), [route])
    if shown.busy:
        stop = [quiet_button(Act("Stop", bench.ask_to_stop))] if shown.can_stop else []
        working = ft.ProgressRing(width=20, height=20, semantics_label="working")
        return _strip([working, *stop], shown.busy)
    if shown.update_waiting:
        return _strip(
            [quiet_button(Act("Start it now", bench.take_update))],
            "A newer version is ready.",
        )
    if not shown.said or shown.said_on not in ("", route):
        return None
    bench.word_drawn()
    acts: list[ft.Control] = []
    says = shown.said
    if shown.undo is not None:
        acts.append(quiet_button(Act("Undo", shown.undo)))
        if calendar_standing(bench).to_take_out:
            says += " The phone's calendar still has it: a new file takes it out."
            acts.append(quiet_button(Act("Calendar file", lambda: hand_out_all(bench))))
    acts.append(quiet_button(Act("Close", lambda: bench.show(said="", undo=None))))
    return _strip(acts, says)


def _strip(acts: list[ft.Control], says: str) -> ft.Control:
    told = ft.Text(says, size=15, color=ft.Colors.ON_SURFACE, expand=True, max_lines=9)
    beside = ft.Row([told, *acts], vertical_alignment=ft.CrossAxisAlignment.CENTER)
    # Three buttons leave no room for words beside them.
    below = ft.Column(
        [ft.Row([told]), ft.Row(acts, alignment=ft.MainAxisAlignment.END, wrap=True)], spacing=0
    )
    return ft.Semantics(
        live_region=True,
        content=ft.Container(
            below if len(acts) > 2 else beside,
            bgcolor=ft.Colors.SURFACE_CONTAINER_HIGHEST,
            padding=ft.Padding(left=16, right=8, top=4, bottom=4),
        ),
    )


@ft.component
def Nowhere() -> ft.Control:
    """What stands at an address that is none of the program's."""
    bench = use_bench()
    return ft.Column(
        [
            panels.empty("There is no such screen.", "The address was cut short or mistyped."),
            side_button(Act("To what is due", lambda: bench.go("/"))),
        ],
        horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
    )


@ft.component
def Shell(bench: Bench) -> object:
    """Every screen, with the bench given to it."""
    return with_bench(
        bench,
        lambda: STRIP(lambda: said_strip(bench), lambda: ft.Router(ROUTES, Nowhere, True)),
    )
