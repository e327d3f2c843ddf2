"""The level argument: everything that a node below a cut draws below it, until the cut is contradicted or holds."""

from msgspec import Struct

from netcheck.electrical.network.elements import Element
from netcheck.electrical.proof.currents import Currents, MayFlow
from netcheck.electrical.proof.order import bits

__all__ = ["Argument", "Stop", "Ties"]


class Ties(Struct, frozen=True):
    """The argument went through: ``route`` ties the node ``first`` to ``last``, across thresholds of ``margin``."""

    first: int
    last: int
    margin: float
    route: tuple[Element, ...]


class Stop(Struct, frozen=True):
    """The argument got stuck: ``pump`` could lift out current that reaches it from ``seed`` outside ``shut``.

    Without a pump nothing certain ties the nodes. A stop met in the mirrored network says so.
    """

    seed: int = 0
    pump: MayFlow | None = None
    shut: int = 0
    mirrored: bool = False


class _Run(Struct):
    """``calm`` seeds cannot reach a pump that lifts; ``doomed`` ones can reach that of the stop they stand under."""

    between: int
    inside: int
    shut: int
    calm: int = 0
    doomed: tuple[tuple[Stop, int], ...] = ()


class Argument:
    """The argument over permitted currents.

    ``below`` and ``above`` are, for every node, the sets known to lie below and above it without any margin. They may
    grow from run to run.
    """

    def __init__(self, model: Currents, below: list[int], above: list[int], *, mirrored: bool = False) -> None:
        """Take the currents and the order as it is known; both ``mirrored`` or neither."""
        self._mirrored = mirrored
        self._model = model
        self._below = below
        self._above = above
        self._back = _reversed(model.onward)
        self._spreads: dict[tuple[bool, int, int], int] = {}
        self._sources = sum(1 << node for node in {pump.source for pump in model.pumps})

    def run(self, between: int, inside: int, outside: int) -> Ties | Stop:
        """Argue among the nodes ``between``, from the set ``inside`` until it meets the set ``outside``."""
        ties: dict[int, MayFlow] = {}
        margin = 0.0
        state = _Run(between, inside, outside | ~between)
        while not state.inside & outside:
            self._sort(state)
            fresh = between & ~state.inside
            feeds = [
                feed
                for seed in bits(state.calm & state.inside)
                for feed in self._model.feeds[seed]
                if fresh >> feed.flow.source & 1
            ]
            if not feeds:
                return state.doomed[0][0] if state.doomed else Stop()
            # Thresholds are crossed one by one, and only when nothing without a threshold is left.
            least = min(feed.threshold for feed in feeds)
            margin += least
            for feed in feeds:
                if feed.threshold == least:
                    state.inside |= self._below[feed.flow.source]
                    ties.setdefault(feed.flow.source, feed.flow)
        return self._tied(ties, state.inside & outside, margin)

    def _tied(self, ties: dict[int, MayFlow], met: int, margin: float) -> Ties:
        """The chain of flows to the first node that brought in one which the argument was to meet."""
        last = node = next((each for each in ties if self._below[each] & met), next(bits(met)))
        route: list[Element] = []
        while node in ties:
            route.append(ties[node].element)
            node = ties[node].target
        return Ties(node, last, margin, tuple(route[::-1]))

    def path(self, stop: Stop) -> tuple[Element, ...]:
        """The elements through which current gets from the stop's seed to its pump."""
        if stop.pump is None:
            return ()
        came: dict[int, MayFlow] = {}
        queue = [stop.seed]
        for node in queue:
            if stop.pump.source == stop.seed or stop.pump.source in came:
                break
            for flow in self._model.ways[node]:
                if flow.target != stop.seed and flow.target not in came and not stop.shut >> flow.target & 1:
                    came[flow.target] = flow
                    queue.append(flow.target)
        node, path = stop.pump.source, []
        while node != stop.seed:
            path.append(came[node].element)
            node = came[node].source
        return tuple(path[::-1])

    def _sort(self, state: _Run) -> None:
        """Tell for every seed whether current from it could be lifted out."""
        standing = [each for each in state.doomed if each[0].pump and not state.inside >> each[0].pump.target & 1]
        state.doomed = tuple(standing)
        for seed in bits(state.inside & state.between & ~state.calm):
            if any(doomed >> seed & 1 for _, doomed in state.doomed):
                continue
            reached = self._spread(seed, state.shut)
            stop = self._stop(state, seed, reached)
            if stop is None or stop.pump is None:
                # Where no pump at all is in reach, none is from anything that is reached either.
                state.calm |= 1 << seed if reached & self._sources else reached
            else:
                state.doomed += ((stop, self._spread(stop.pump.source, stop.shut, back=True)),)

    def _stop(self, state: _Run, seed: int, reached: int) -> Stop | None:
        if not reached & self._sources:
            return None
        for pump in self._model.pumps:
            if not reached >> pump.source & 1 or not (state.between & ~state.inside) >> pump.target & 1:
                continue
            # The target lies above the cut, and with it everything known to lie above the target.
            shut = state.shut | self._above[pump.target]
            if shut == state.shut or self._spread(seed, shut) >> pump.source & 1:
                return Stop(seed, pump, shut, self._mirrored)
        return None

    def _spread(self, seed: int, shut: int, *, back: bool = False) -> int:
        """What is reached from a node, or reaches it, without entering the set ``shut``."""
        key = (back, seed, shut)
        if key not in self._spreads:
            self._spreads[key] = _spread(self._back if back else self._model.onward, seed, shut)
        return self._spreads[key]


def _reversed(onward: tuple[int, ...]) -> tuple[int, ...]:
    back = [0] * len(onward)
    for node, targets in enumerate(onward):
        for target in bits(targets):
            back[target] |= 1 << node
    return tuple(back)


def _spread(onward: tuple[int, ...], seed: int, shut: int) -> int:
    allowed = ~shut
    reached = front = 1 << seed & allowed
    while front:
        lowest = front & -front
        fresh = onward[lowest.bit_length() - 1] & allowed & ~reached
        reached |= fresh
        front = front ^ lowest | fresh
    return reached
