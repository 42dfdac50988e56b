"""The reader: some twenty thousand weights, because it runs on every conductor; a wide one looks again where that one doubts."""
from dataclasses import dataclass

import torch
import torch.nn as nn
import torch.nn.functional as F

INPUTS = 9
CELLS = ('body', 'stripe', 'tape', 'bare', 'other', 'print')
LAYOUTS = ('plain', 'along', 'spiral', 'rings')
POOL_AFTER = 3
SEEN = 7  # input plane that says which cells count
STRIPE = CELLS.index('stripe')


@dataclass(frozen=True)
class Shape:
    """`dilations`: reach along the conductor, in half-size rows, of each block."""
    width: int
    dilations: tuple
    hidden: int


SHAPES = {'narrow': Shape(40, (1, 2, 4, 8, 2, 1), 48), 'wide': Shape(96, (1, 2, 4, 8, 16, 8, 4, 2, 1), 96)}


class Reader(nn.Module):
    """Cells [n, 9, L, 12] (L even) to what each cell is [n, 6, L, 12] and how the conductor is striped [n, 4] (logits)."""

    def __init__(self, shape='narrow'):
        super().__init__()
        self.shape = SHAPES[shape]
        width, dilations, hidden = self.shape.width, self.shape.dilations, self.shape.hidden
        self.first = nn.Conv2d(INPUTS, width, 4, stride=2, padding=1)
        self.depth = nn.ModuleList(nn.Conv2d(width, width, (5, 3), padding=(2 * d, 1), dilation=(d, 1), groups=width) for d in dilations)
        self.mix = nn.ModuleList(nn.Conv2d(width, width, 1) for _ in dilations)
        self.pool = nn.Linear(2 * width, width)
        self.cells = nn.Conv2d(width, 4 * len(CELLS), 1)
        # Of the whole: its mean, its most, the mean of what looks like stripe, and the share of each kind.
        self.whole = nn.Linear(3 * width + len(CELLS), hidden)
        self.layout = nn.Linear(hidden, len(LAYOUTS))

    def forward(self, x):
        seen = x[:, SEEN:SEEN + 1]
        # A half-size cell counts as far as its four cells do.
        weight = F.avg_pool2d(seen, 2)
        n = weight.sum((2, 3)).clamp(min=0.25)
        there = (weight > 0).float()
        mean = lambda h: (h * weight).sum((2, 3)) / n
        top = lambda h: (h * there).amax((2, 3))
        h = F.relu(self.first(x))
        for k, (depth, mix) in enumerate(zip(self.depth, self.mix)):
            h = h + F.relu(mix(F.relu(depth(h))))
            if k == POOL_AFTER:
                h = h + F.relu(self.pool(torch.cat([mean(h), top(h)], 1)))[:, :, None, None]
        cells = F.pixel_shuffle(self.cells(h), 2)
        kinds = cells.float().softmax(1) * seen
        share = kinds.sum((2, 3)) / seen.sum((2, 3)).clamp(min=1)
        stripe = F.avg_pool2d(kinds[:, STRIPE:STRIPE + 1], 2)
        of_stripe = (h * stripe).sum((2, 3)) / stripe.sum((2, 3)).clamp(min=0.25)
        whole = torch.cat([mean(h), top(h), of_stripe, 8 * share], 1)
        return cells, self.layout(F.relu(self.whole(whole)))
