"""The integer program against brute force, and what it says when nothing suffices."""

import itertools
import random
import time

import pytest

from scenekit.advice.choose import Choice, Impossible, Option, Question, choose
from scenekit.errors import MachineError


def random_question(seed: int) -> Question:
    chosen = random.Random(seed)
    cases, memories = chosen.randint(1, 4), chosen.randint(1, 2)
    groups = []
    for _ in range(chosen.randint(1, 5)):
        options = []
        for number in range(chosen.randint(1, 4)):
            options.append(
                Option(
                    name=f"o{number}",
                    times=tuple(chosen.randint(0, 40) for _ in range(cases)),
                    memory=tuple(chosen.randint(0, 30) for _ in range(memories)),
                    changes=int(number > 0),
                )
            )
        groups.append(tuple(options))
    return Question(
        groups=tuple(groups),
        fixed_times=tuple(chosen.randint(0, 20) for _ in range(cases)),
        fixed_memory=tuple(chosen.randint(0, 10) for _ in range(memories)),
        most_time=chosen.choice((None, chosen.randint(50, 200))),
        most_memory=tuple(chosen.randint(30, 160) for _ in range(memories)),
        memory_first=chosen.random() < 0.5,
    )


def brute_force(question: Question) -> tuple[int, int, int] | None:
    """Return the best (first goal, second goal, changes) of all combinations."""
    best = None
    for taken in itertools.product(*(range(len(group)) for group in question.groups)):
        options = [group[n] for group, n in zip(question.groups, taken, strict=True)]
        worst = max(
            fixed + sum(o.times[case] for o in options) for case, fixed in enumerate(question.fixed_times)
        )
        used = [fixed + sum(o.memory[m] for o in options) for m, fixed in enumerate(question.fixed_memory)]
        if any(u > most for u, most in zip(used, question.most_memory, strict=True)):
            continue
        if question.most_time is not None and worst > question.most_time:
            continue
        goals = (sum(used), worst) if question.memory_first else (worst, sum(used))
        key = (*goals, sum(o.changes for o in options))
        best = key if best is None else min(best, key)
    return best


def test_it_equals_brute_force_on_five_hundred_questions() -> None:
    possible = 0
    for seed in range(500):
        question = random_question(seed)
        wanted, got = brute_force(question), choose(question)
        if wanted is None:
            assert isinstance(got, Impossible), seed
            continue
        assert isinstance(got, Choice), seed
        possible += 1
        goals = (sum(got.memory), got.time) if question.memory_first else (got.time, sum(got.memory))
        changes = sum(group[n].changes for group, n in zip(question.groups, got.taken, strict=True))
        assert (*goals, changes) == wanted, seed
    assert 250 < possible < 480


def test_sixty_choices_do_not_explode() -> None:
    chosen = random.Random(7)
    groups = tuple(
        tuple(
            Option(
                name=f"{n}",
                times=tuple(chosen.randint(0, 9000) for _ in range(6)),
                memory=(chosen.randint(0, 60_000),),
                changes=int(n > 0),
            )
            for n in range(6)
        )
        for _ in range(10)
    )
    question = Question(
        groups=groups,
        fixed_times=tuple(chosen.randint(0, 4000) for _ in range(6)),
        fixed_memory=(10_000,),
        most_time=None,
        most_memory=(400_000,),
    )
    choose(random_question(1))
    started = time.process_time()
    assert isinstance(choose(question), Choice)
    assert time.process_time() - started < 10  # under a second when measured; trying all would take years


def test_without_a_choice_the_next_best_is_taken() -> None:
    fast = Option(name="fast", times=(1,), memory=(9,), changes=0)
    slow = Option(name="slow", times=(5,), memory=(2,))
    question = Question(
        groups=((fast, slow),), fixed_times=(0,), fixed_memory=(0,), most_time=9, most_memory=(10,)
    )
    first = choose(question)
    assert first == Choice(taken=(0,), time=1, memory=(9,))
    assert choose(question, [(0,)]) == Choice(taken=(1,), time=5, memory=(2,))
    assert isinstance(choose(question, [(0,), (1,)]), Impossible)


def test_the_proof_says_what_would_have_to_give() -> None:
    fast = Option(name="fast", times=(4,), memory=(9,))
    small = Option(name="small", times=(8,), memory=(2,))
    question = Question(
        groups=((fast, small),) * 2, fixed_times=(1,), fixed_memory=(1,), most_time=8, most_memory=(13,)
    )
    assert choose(question) == Impossible(least_time=13, least_memory=(5,))


def test_bad_questions_are_refused() -> None:
    option = Option(name="odd", times=(1, 2), memory=(1,))
    question = Question(
        groups=((option,),), fixed_times=(0,), fixed_memory=(0,), most_time=None, most_memory=(1,)
    )
    with pytest.raises(MachineError, match="option odd: 2 times for 1 cases"):
        choose(question)
