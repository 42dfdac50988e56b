"""The reader: some twenty thousand weights, because it runs in plain TypeScript on every conductor."""
import torch
import torch.nn as nn
import torch.nn.functional as F

INPUTS, WIDTH = 9, 40
CELLS = ('body', 'stripe', 'tape', 'bare', 'other', 'print')
LAYOUTS = ('plain', 'along', 'spiral', 'rings')
# Reach along the conductor, in half-size rows, of each block.
DILATIONS = (1, 2, 4, 8, 2, 1)
POOL_AFTER = 3
SEEN = 7  # input plane that says which cells count


class Reader(nn.Module):
    """Cells [n, 9, L, 12] (L even) to what each cell is [n, 6, L, 12] and how the conductor is striped [n, 4] (logits)."""

    def __init__(self):
        super().__init__()
        self.first = nn.Conv2d(INPUTS, WIDTH, 4, stride=2, padding=1)
        self.depth = nn.ModuleList(nn.Conv2d(WIDTH, WIDTH, (5, 3), padding=(2 * d, 1), dilation=(d, 1), groups=WIDTH) for d in DILATIONS)
        self.mix = nn.ModuleList(nn.Conv2d(WIDTH, WIDTH, 1) for _ in DILATIONS)
        self.pool = nn.Linear(2 * WIDTH, WIDTH)
        self.cells = nn.Conv2d(WIDTH, 4 * len(CELLS), 1)
        self.layout = nn.Linear(2 * WIDTH + len(CELLS), len(LAYOUTS))

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
        share = (cells.softmax(1) * seen).sum((2, 3)) / seen.sum((2, 3)).clamp(min=1)
        return cells, self.layout(torch.cat([mean(h), top(h), 8 * share], 1))
