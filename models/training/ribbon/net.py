"""The reader: thirty thousand weights, because it runs on every conductor; two wide ones look again where that one
doubts, and one of them sees what lies beside the conductor."""
from dataclasses import dataclass

import torch
import torch.nn as nn
import torch.nn.functional as F

from data import BESIDE

# Planes of a cell that every reader looks at, and those that one looks at which hears all that the segmentation says.
INPUTS, ALL = 9, 15
CELLS = ('body', 'stripe', 'tape', 'bare', 'other', 'print')
LAYOUTS = ('plain', 'along', 'spiral', 'rings')
POOL_AFTER = 3
SEEN = 7  # input plane that says which cells count
STRIPE = CELLS.index('stripe')


@dataclass(frozen=True)
class Shape:
    """`dilations`: reach along the conductor, in half-size rows, of each block. `beside`: columns that it sees on either side.
    `inputs`: planes that it looks at."""
    width: int
    dilations: tuple
    hidden: int
    beside: int
    inputs: int


SHAPES = {'narrow': Shape(40, (1, 2, 4, 8, 2, 1), 48, 0, INPUTS), 'wide': Shape(96, (1, 2, 4, 8, 16, 8, 4, 2, 1), 96, 0, INPUTS),
          'outer': Shape(128, (1, 2, 4, 8, 16, 8, 4, 2, 1), 128, 2, ALL)}


class Reader(nn.Module):
    """Cells [n, inputs, L, 12 + 2 beside] (L even) to what each of the conductor's own 12 a row is [n, 6, L, 12] and how it is striped
    [n, 4] (logits)."""

    def __init__(self, shape='narrow'):
        super().__init__()
        self.compiled = False
        self.shape = SHAPES[shape]
        width, dilations, hidden = self.shape.width, self.shape.dilations, self.shape.hidden
        self.first = nn.Conv2d(self.shape.inputs, width, 4, stride=2, padding=1)
        self.depth = nn.ModuleList(nn.Conv2d(width, width, (5, 3), padding=(2 * d, 1), dilation=(d, 1), groups=width) for d in dilations)
        self.mix = nn.ModuleList(nn.Conv2d(width, width, 1) for _ in dilations)
        self.pool = nn.Linear(2 * width, width)
        self.cells = nn.Conv2d(width, 4 * len(CELLS), 1)
        # Of the whole: its mean, its most, the mean of what looks like stripe, and the share of each kind.
        self.whole = nn.Linear(3 * width + len(CELLS), hidden)
        self.layout = nn.Linear(hidden, len(LAYOUTS))

    def sees(self, x):
        """Of cells with all planes and BESIDE (data.py) columns on either side what this reader looks at."""
        outer = BESIDE - self.shape.beside
        return x[:, :self.shape.inputs, :, outer:x.shape[-1] - outer].contiguous()

    def forward(self, x):
        beside = self.shape.beside
        own = lambda plane, columns: plane[..., columns:plane.shape[-1] - columns]
        seen = own(x[:, SEEN:SEEN + 1], beside)
        # A half-size cell counts as far as its four cells do.
        weight = F.avg_pool2d(seen, 2)
        n = weight.sum((2, 3)).clamp(min=0.25)
        there = (weight > 0).float()
        mean = lambda h: (h * weight).sum((2, 3)) / n
        top = lambda h: (h * there).amax((2, 3))
        h = F.relu(self.first(x))
        for k, (depth, mix) in enumerate(zip(self.depth, self.mix)):
            h = h + F.relu(mix(F.relu(shifted(depth, h) if self.compiled else depth(h))))
            if k == POOL_AFTER:
                inner = own(h, beside // 2)
                h = h + F.relu(self.pool(torch.cat([mean(inner), top(inner)], 1)))[:, :, None, None]
        h = own(h, beside // 2)
        cells = F.pixel_shuffle(self.cells(h), 2)
        kinds = cells.float().softmax(1) * seen
        share = kinds.sum((2, 3)) / seen.sum((2, 3)).clamp(min=1)
        stripe = F.avg_pool2d(kinds[:, STRIPE:STRIPE + 1], 2)
        of_stripe = (h * stripe).sum((2, 3)) / stripe.sum((2, 3)).clamp(min=0.25)
        whole = torch.cat([mean(h), top(h), of_stripe, 8 * share], 1)
        return cells, self.layout(F.relu(self.whole(whole)))


def stripe_odds(layout):
    """Log-odds of any stripe, of logits [n, 4]."""
    return torch.logsumexp(layout[:, 1:], 1) - layout[:, 0]


def shifted(depth, h):
    """What the layer `depth` does, as a sum of shifted grids: compiled, that is faster than PyTorch's own on a GPU."""
    (tall, wide), (down, right) = depth.kernel_size, depth.padding
    padded = F.pad(h, (right, right, down, down))
    step, (rows, columns) = depth.dilation[0], h.shape[2:]
    out = depth.bias.to(h.dtype)[:, None, None]
    for i in range(tall):
        for j in range(wide):
            out = out + depth.weight[:, 0, i, j].to(h.dtype)[:, None, None] * padded[:, :, i * step:i * step + rows, j:j + columns]
    return out
