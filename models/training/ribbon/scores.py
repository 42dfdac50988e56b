"""Answers test/vision/ribbon/dump.ts with what the conductor network says of a picture: a GPU does it fifty times as fast.

    python3 scores.py ASKED [--checkpoint ../checkpoint.pt]

ASKED/N.WIDTHxHEIGHT.ask holds a picture as the network is shown it, 16 bits a channel, row by row. The answer, ASKED/N.answer,
is what `Scores` (src/vision/network/planes.ts) holds, in half precision: full, color, tape, stripe.
"""
import argparse
import sys
import time
from pathlib import Path

import numpy as np
import torch

# The conductor network has a net.py of its own.
sys.path.insert(0, str(Path(__file__).parent.parent))
from net import COLORS, FULL, HALF, load_net  # noqa: E402

AT = {name: k for k, name in enumerate(FULL)}
# Pictures looked at together.
MOST = 8


@torch.no_grad()
def scores(net, pictures):
    """Of pictures [n, h, w, 3], 16 bits whatever the sign, the numbers of each as one line of bytes."""
    x = (pictures.int() & 65535).permute(0, 3, 1, 2).float() / 65535
    with torch.autocast(x.device.type, torch.float16, enabled=x.device.type == 'cuda'):
        full, half = net(x)
    full, half = full.float(), half.float()
    covered = torch.logsumexp(full[:, [AT['insulated'], AT['jacket']]], 1)
    bare, background = full[:, AT['bare']], full[:, AT['background']]
    kept = [torch.logaddexp(covered, bare) - background, *(full[:, AT[k]] for k in ('edge', 'cos2t', 'sin2t', 'log-half-width')),
            bare - covered]
    flat = lambda v: v.reshape(len(x), -1)
    parts = [flat(torch.stack(kept, -1)), flat(half[:, :len(COLORS)].permute(0, 2, 3, 1)), flat(full[:, AT['tape']]),
             flat(half[:, HALF.index('stripe')])]
    return torch.cat(parts, 1).half().cpu().numpy()


def main():
    p = argparse.ArgumentParser()
    p.add_argument('asked', type=Path)
    p.add_argument('--checkpoint', default=Path(__file__).parent.parent / 'checkpoint.pt')
    args = p.parse_args()
    device = torch.device('cuda' if torch.cuda.is_available() else 'cpu')
    net = load_net(args.checkpoint, device).to(memory_format=torch.channels_last)
    print('ready', flush=True)
    answered, last = 0, time.time()
    while True:
        asks = sorted(args.asked.glob('*.ask'))
        if not asks:
            time.sleep(0.002)
            continue
        size = asks[0].suffixes[-2]
        asks = [a for a in asks if a.suffixes[-2] == size][:MOST]
        width, height = (int(v) for v in size[1:].split('x'))
        pictures = np.stack([np.frombuffer(a.read_bytes(), '<i2').reshape(height, width, 3) for a in asks])
        for a in asks:
            a.unlink()
        for a, numbers in zip(asks, scores(net, torch.from_numpy(pictures).to(device))):
            part = a.with_suffix('.part')
            part.write_bytes(numbers.tobytes())
            part.rename(args.asked / f'{a.name.split(".")[0]}.answer')
        answered += len(asks)
        if answered % 1000 < len(asks):
            print(f'{1000 / (time.time() - last):.1f} pictures/s', flush=True)
            last = time.time()


if __name__ == '__main__':
    main()
