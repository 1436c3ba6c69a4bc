"""The shell: which screen stands at which address, and the words that pass over all of them."""

import flet as ft

from app.screens.batch import BatchScreen
from app.screens.bench import Bench, with_bench
from app.screens.entry import EntryScreen
from app.screens.journal import JournalScreen
from app.screens.mix import MixScreen
from app.screens.now import NowScreen
from app.screens.photo import PhotoScreen
from app.screens.plan import PlanScreen
from app.screens.probe import ProbeScreen
from app.screens.repeat import RepeatScreen
from app.screens.shopping import ShoppingScreen
from app.screens.slice import SliceScreen
from app.screens.start_batch import StartScreen
from app.screens.working import WorkingScreen
from app.screens.wrap import WrapScreen

ROUTES = [
    ft.Route(path="/", component=NowScreen),
    ft.Route(path="/mix", component=MixScreen),
    ft.Route(path="/mix/list", component=ShoppingScreen),
    ft.Route(path="/mix/start", component=StartScreen),
    ft.Route(path="/mix/how/:key", component=WorkingScreen),
    ft.Route(path="/journal", component=JournalScreen),
    ft.Route(path="/journal/:batch", component=BatchScreen),
    ft.Route(path="/journal/:batch/add/:kind", component=EntryScreen),
    ft.Route(path="/journal/:batch/plan", component=PlanScreen),
    ft.Route(path="/journal/:batch/probe", component=ProbeScreen),
    ft.Route(path="/journal/:batch/wrap", component=WrapScreen),
    ft.Route(path="/journal/:batch/slice", component=SliceScreen),
    ft.Route(path="/journal/:batch/repeat", component=RepeatScreen),
    ft.Route(path="/journal/:batch/photo/:photo", component=PhotoScreen),
]


@ft.component
def Shell(bench: Bench) -> object:
    """Every screen, with the bench given to it."""
    return with_bench(bench, lambda: ft.Router(ROUTES, manage_views=True))
