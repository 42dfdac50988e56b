"""The reader: a few thousand weights, because it runs in plain TypeScript on every conductor."""
import torch
import torch.nn as nn
import torch.nn.functional as F

INPUTS, WIDTH, CELLS, LAYOUTS = 10, 16, 5, 4
DILATIONS = (1, 2, 4, 8, 16)


class Reader(nn.Module):
    """Cells [n, 10, L, 12] to what each cell is [n, 5, L, 12] and how the conductor is striped [n, 4] (logits)."""

    def __init__(self):
        super().__init__()
        self.first = nn.Conv2d(INPUTS, WIDTH, 3, padding=1)
        self.depth = nn.ModuleList(nn.Conv2d(WIDTH, WIDTH, 3, padding=(d, 1), dilation=(d, 1), groups=WIDTH) for d in DILATIONS)
        self.mix = nn.ModuleList(nn.Conv2d(WIDTH, WIDTH, 1) for _ in DILATIONS)
        self.pool = nn.Linear(WIDTH, WIDTH)
        self.cells = nn.Conv2d(WIDTH, CELLS, 1)
        self.layout = nn.Linear(2 * WIDTH + CELLS, LAYOUTS)

    def forward(self, x):
        seen = x[:, 7:8]
        n = seen.sum((2, 3)).clamp(min=1)
        h = F.relu(self.first(x))
        for k, (depth, mix) in enumerate(zip(self.depth, self.mix)):
            h = h + F.relu(mix(F.relu(depth(h))))
            if k == 2:
                h = h + F.relu(self.pool((h * seen).sum((2, 3)) / n))[:, :, None, None]
        cells = self.cells(h)
        share = (cells.softmax(1) * seen).sum((2, 3)) / n
        mean = (h * seen).sum((2, 3)) / n
        top = (h * seen).amax((2, 3))
        return cells, self.layout(torch.cat([mean, top, 8 * share], 1))
