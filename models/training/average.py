"""Averages the weights of checkpoints of one training: its ends lie in one valley, and their mean errs less than each.

    python3 average.py ONE.pt TWO.pt ... --out MEAN.pt

The mean takes the place of the moving average (`ema`), which is what is exported and evaluated; everything else, what
training goes on from included, is the last checkpoint's.
"""
import argparse

import torch


def average(checkpoints):
    """The last of `checkpoints` (dicts as train.py writes them) with `ema` the mean of all of theirs."""
    last = dict(checkpoints[-1])
    last['ema'] = {k: torch.stack([c['ema'][k].float() for c in checkpoints]).mean(0) if v.is_floating_point() else v
                   for k, v in last['ema'].items()}
    return last


if __name__ == '__main__':
    p = argparse.ArgumentParser()
    p.add_argument('checkpoints', nargs='+')
    p.add_argument('--out', required=True)
    args = p.parse_args()
    torch.save(average([torch.load(c, map_location='cpu') for c in args.checkpoints]), args.out)
