"""What rendering, camera and training cost on this machine, and whether both builds of the renderer agree.

    python3 bench.py --library cuda/libhprender.so --host-library libhprender.so [--backgrounds FOLDER]
"""
import argparse
import time

import numpy as np
import torch

import backgrounds as bg
from camera import photograph
from losses import head_losses, total
from net import Net
from renderer import Renderer
from targets import crop, make_targets


def clock(work, repeats):
    """Milliseconds of one call, after one to warm up."""
    work()
    torch.cuda.synchronize()
    start = time.time()
    for _ in range(repeats):
        work()
    torch.cuda.synchronize()
    return (time.time() - start) / repeats * 1000


def main():
    p = argparse.ArgumentParser()
    p.add_argument('--library', required=True)
    p.add_argument('--host-library')
    p.add_argument('--backgrounds')
    p.add_argument('--batch', type=int, default=64)
    args = p.parse_args()
    device = torch.device('cuda', 0)
    torch.backends.cudnn.benchmark = True
    pixels = bg.load_backgrounds(args.backgrounds, device)[0] if args.backgrounds else None
    backdrops = None if pixels is None else bg.linear_backdrops(pixels)
    r = Renderer(args.library, device, backdrops)
    print('GPU', torch.cuda.get_device_name(0), 'generators', r.names, flush=True)
    if args.host_library:
        host = Renderer(args.host_library, 'cpu', None if backdrops is None else backdrops.cpu())
        for name in r.names:
            seeds, size = np.arange(500, 504), 96
            a, b = host.render(seeds, host.mixture({name: 1}), size), r.render(seeds, r.mixture({name: 1}), size)
            same = (a['covering'] == b['covering'].cpu()).float().mean().item()
            off = (a['rgb'] - b['rgb'].cpu()).abs()
            print(f'parity {name}: covering agrees {100 * same:.2f} %, rgb differs by {off.mean().item():.5f} on average', flush=True)
    for samples in (1, 2, 4):
        r.lib.hp_set_samples(samples)
        for size in (384, 512):
            for name in r.names if size == 512 and samples == 2 else ['all']:
                mix = r.mixture({'*': 1} if name == 'all' else {name: 1})
                seed = [1000]

                def work():
                    seed[0] += 32
                    r.render(np.arange(seed[0], seed[0] + 32), mix, size)
                ms = clock(work, 2)
                print(f'render {name} {size} px {samples} samples: {32000 / ms:.0f} images/s', flush=True)
    prepared = time.time()
    for i in range(4):
        r.submit(r.prepare(np.arange(9000 + 32 * i, 9032 + 32 * i), r.mixture({'*': 1})), 8)
    torch.cuda.synchronize()
    print(f'scenes made on the host: {128 / (time.time() - prepared):.0f} images/s', flush=True)
    planes = r.render(np.arange(args.batch), r.mixture({'*': 1}), 512)
    net = Net().to(device)
    optimizer = torch.optim.AdamW(net.parameters(), 1e-3)
    rgb, labels = crop(planes, slice(None), 0, 0, 512, 384, 0)
    target, x = make_targets(labels), photograph(rgb)
    print(f'crop and targets {clock(lambda: make_targets(crop(planes, slice(None), 0, 0, 512, 384, 0)[1]), 5):.1f} ms', flush=True)
    print(f'camera {clock(lambda: photograph(rgb), 5):.1f} ms a batch of {args.batch}', flush=True)

    def forward():
        with torch.autocast('cuda', torch.bfloat16):
            return net(x)

    def step():
        full, half = forward()
        optimizer.zero_grad(set_to_none=True)
        total(head_losses(full, half, target)).backward()
        optimizer.step()
    print(f'forward {clock(forward, 5):.1f} ms, step {clock(step, 5):.1f} ms', flush=True)


if __name__ == '__main__':
    main()
