"""Trains the conductor network on scenes rendered as it goes. Run it through torchrun for several GPUs.

    torchrun --standalone --nproc-per-node=2 train.py --library libhprender.so --backgrounds FOLDER \
        --resume models/training/checkpoint.pt --out FOLDER --stop-at $(($(date +%s) + 560))

Scenes come from seeds, which are counted on from run to run in the checkpoint; no picture is stored. The checkpoint
(weights, their moving average, counters; no optimizer state) is below 8 MB.
"""
import argparse
import copy
import json
import math
import os
import random
import time
from pathlib import Path

import torch
import torch.distributed as dist

import backgrounds as bg
from camera import photograph, plain_backdrop, rephotograph
from fast import accelerate
from losses import head_losses, total
from net import Net, wire_logit
from renderer import Pool, Renderer
from targets import crop, join, make_targets

# Seeds from here on are for validation alone.
VALIDATION_SEEDS = 1 << 60
# Each GPU counts its seeds within its own range.
SEEDS_PER_RANK = 1 << 40


def arguments():
    p = argparse.ArgumentParser()
    p.add_argument('--library', required=True)
    p.add_argument('--backgrounds')
    p.add_argument('--background-limit', type=int)
    p.add_argument('--config', default=str(Path(__file__).with_name('mixture.json')))
    p.add_argument('--resume')
    p.add_argument('--out', required=True)
    p.add_argument('--name', default='checkpoint')
    p.add_argument('--stop-at', type=float, required=True, help='seconds since 1970: everything is written before')
    p.add_argument('--batch', type=int, default=64)
    p.add_argument('--groups', type=int, default=8, help='crops of a batch share window and turn within a group')
    p.add_argument('--pool', type=int, default=2048)
    p.add_argument('--chunk', type=int, default=32)
    p.add_argument('--reuse', type=float, default=3.0)
    p.add_argument('--samples', type=int, default=4)
    p.add_argument('--threads', type=int)
    p.add_argument('--validation', type=int, default=16, help='held-out scenes per generator')
    p.add_argument('--steps', type=int, default=10**9)
    p.add_argument('--learning-rate', type=float)
    p.add_argument('--fast', help='fast.cu as a library: quicker training on a GPU')
    p.add_argument('--workers-cpu', action='store_true', help='stay on the CPU')
    return p.parse_args()


class Trainer:
    def __init__(self, args, make_renderer=Renderer):
        self.args = args
        self.config = json.loads(Path(args.config).read_text())
        self.rank, self.world = int(os.environ.get('RANK', 0)), int(os.environ.get('WORLD_SIZE', 1))
        cuda = torch.cuda.is_available() and not args.workers_cpu
        self.device = torch.device('cuda', int(os.environ.get('LOCAL_RANK', 0))) if cuda else torch.device('cpu')
        if cuda:
            torch.cuda.set_device(self.device)
            torch.backends.cudnn.benchmark = True
            torch.set_float32_matmul_precision('high')
        if self.world > 1:
            dist.init_process_group('nccl' if cuda else 'gloo')
        random.seed(self.rank + int(time.time()))
        torch.manual_seed(self.rank * 7919 + int(time.time()))
        self.negatives = self.backdrops = None
        if args.backgrounds:
            self.negatives = bg.load_backgrounds(args.backgrounds, self.device, args.background_limit)
            self.backdrops = bg.linear_backdrops(self.negatives[0])
        self.renderer = make_renderer(args.library, self.device, self.backdrops, args.threads, args.samples)
        self.renderer.mark(self.config.get('marked', 0))
        self.started = time.time()
        self.net = Net().to(self.device)
        self.state = {'step': 0, 'images': 0, 'gpu_seconds': 0.0, 'next_seed': 1, 'history': []}
        if args.resume:
            loaded = torch.load(args.resume, map_location='cpu')
            self.net.load_state_dict({k: v.float() if v.is_floating_point() else v for k, v in loaded['net'].items()})
            self.state = loaded['state']
            # Weights saved as their moving average go on from there; a few hundred steps make both alike.
        self.ema = copy.deepcopy(self.net).eval()
        for p in self.ema.parameters():
            p.requires_grad_(False)
        if args.resume:
            self.ema.load_state_dict({k: v.float() if v.is_floating_point() else v for k, v in loaded['ema'].items()})
        if args.fast and cuda:
            accelerate(self.net, args.fast, args.batch, self.config['size'], self.say)
        self.model = self.net
        if self.world > 1:
            self.model = torch.nn.parallel.DistributedDataParallel(
                self.net, device_ids=[self.device.index] if cuda else None, broadcast_buffers=False,
                gradient_as_bucket_view=True)
        self.lr = args.learning_rate or self.config['learningRate']
        decay = [p for p in self.net.parameters() if p.ndim > 1]
        plain = [p for p in self.net.parameters() if p.ndim <= 1]
        self.optimizer = torch.optim.AdamW([{'params': decay, 'weight_decay': self.config['weightDecay']},
                                            {'params': plain, 'weight_decay': 0.0}], self.lr, betas=(0.9, 0.98))
        first = self.state['next_seed'] + self.rank * SEEDS_PER_RANK
        self.pool = Pool(self.renderer, args.pool, self.config['renderSize'], args.chunk, args.reuse, first,
                         self.renderer.mixture(self.stage(0)['mixture']))

    def say(self, *words):
        if self.rank == 0:
            print(f'{time.time() - self.started:7.1f}s', *words, flush=True)

    def stage(self, share):
        return next(s for s in self.config['stages'] if share <= s['until'] or s is self.config['stages'][-1])

    def batch(self, stage):
        """One batch: pictures as a camera would have stored them, and the targets."""
        args, size, rs = self.args, self.config['size'], self.config['renderSize']
        per = args.batch // args.groups
        parts = []
        for _ in range(args.groups):
            window = random.choice(stage['windows'])
            index = torch.randint(0, self.pool.filled, (per,), device=self.device)
            parts.append(crop(self.pool.planes, index, random.randint(0, rs - window), random.randint(0, rs - window),
                              window, size, random.randrange(8)))
        rgb, labels = torch.cat([p[0] for p in parts]), join([p[1] for p in parts])
        order = torch.randperm(len(rgb), device=self.device)
        rgb, labels = rgb[order], {k: v[order] for k, v in labels.items()}
        background = (labels['covering'] == 0)[:, None].float()
        x = plain_backdrop(rgb.float(), background, stage.get('plain', 0))
        if self.backdrops is not None:
            x = bg.scenery(x, background, self.backdrops, stage.get('scenery', 0))
        x = photograph(x)
        if self.negatives is not None:
            k = int(stage['negatives'] * len(x) + random.random())
            if k:
                photo = bg.negatives(*self.negatives, k, size)
                x[:k] = rephotograph(photo)
                for name, plane in labels.items():
                    plane[:k] = 255 if name == 'color' else 0
        return x, make_targets(labels)

    def update_average(self, done):
        decay = min(0.998, (done + 1) / (done + 20))
        pairs = list(zip(self.ema.state_dict().values(), self.net.state_dict().values()))
        floats = [p for p in pairs if p[0].is_floating_point()]
        with torch.no_grad():
            means = [m for m, _ in floats]
            torch._foreach_mul_(means, decay)
            torch._foreach_add_(means, [now for _, now in floats], alpha=1 - decay)

    def share_of_time(self):
        """0 at the start, 1 when it is time to finish; the same on every GPU."""
        end = self.args.stop_at - 25
        share = torch.tensor([(time.time() - self.started) / max(1.0, end - self.started)], device=self.device)
        if self.world > 1:
            dist.broadcast(share, 0)
        return float(share)

    def save(self):
        if self.rank:
            return
        state = dict(self.state)
        path = Path(self.args.out) / f'{self.args.name}.pt'
        half = {k: v.detach().cpu() for k, v in self.net.state_dict().items()}
        mean = {k: v.detach().cpu() for k, v in self.ema.state_dict().items()}
        torch.save({'net': half, 'ema': mean, 'state': state}, f'{path}.part')
        os.replace(f'{path}.part', path)

    def contact_sheet(self, x, target, name):
        """Pictures and labels side by side, to be looked at."""
        from PIL import Image
        n = min(24, len(x))
        with torch.no_grad():
            seen = wire_logit(self.ema(x[:n])[0]).sigmoid().expand(-1, 3, -1, -1)
        tint = torch.tensor([[0, 0, 0], [0.2, 0.9, 0.2], [0.95, 0.5, 0.1], [0.3, 0.4, 1]], device=x.device)
        labels = tint[target['kind'][:n]].permute(0, 3, 1, 2)
        labels = torch.where(target['edge'][:n] > 0, torch.ones_like(labels), labels)
        rows = [torch.cat([torch.cat(list(v[i:i + 8]), 2) for v in (x, labels, seen)], 1) for i in range(0, n - 7, 8)]
        if not rows:
            return
        sheet = torch.nn.functional.avg_pool2d(torch.cat(rows, 1)[None].float(), 2)[0]
        Image.fromarray((sheet.clamp(0, 1) * 255).byte().permute(1, 2, 0).cpu().numpy()).save(
            Path(self.args.out) / f'{name}.jpg', quality=80)

    @torch.no_grad()
    def validate(self):
        """Percent of conductor pixels found, of background called conductor, IoU and color named, per generator."""
        result, n, size = {}, self.args.validation, self.config['size']
        self.renderer.mark(0)
        seeds = [VALIDATION_SEEDS + i for i in range(n)]
        cuda = [self.device] if self.device.type == 'cuda' else []
        for name in self.renderer.names:
            planes = self.renderer.render(seeds, self.renderer.mixture({name: 1}), self.config['renderSize'])
            with torch.random.fork_rng(devices=cuda):
                torch.manual_seed(1)
                rgb, labels = crop(planes, slice(None), 0, 0, self.config['renderSize'], size, 0)
                x, target = photograph(rgb), make_targets(labels)
            outputs = [self.ema(x[i:i + 16]) for i in range(0, n, 16)]
            z = torch.cat([wire_logit(o[0]) for o in outputs])
            color = torch.cat([o[1] for o in outputs])[:, :13].argmax(1)
            hit, wire = z > 0, target['wire'] > 0
            asked = target['color'] < 13
            percent = lambda a, b: round(100 * float(a.sum()) / max(1.0, float(b.sum())), 1)
            result[name] = {'found': percent(hit & wire, wire), 'invented': percent(hit & ~wire, ~wire),
                            'iou': percent(hit & wire, hit | wire),
                            'color': percent((color == target['color']) & asked, asked)}
        return result

    def run(self):
        args, sums, last, saved = self.args, {}, time.time(), time.time()
        self.say('generators', self.renderer.names, 'parameters', sum(p.numel() for p in self.net.parameters()),
                 'GPUs', self.world, 'continues at step', self.state['step'])
        self.pool.feed(0)
        done, share = 0, 0.0
        first_images = self.state['images']
        while done < args.steps:
            if done % 20 == 0:
                share = self.share_of_time()
                if share >= 1:
                    break
                self.pool.mixture = self.renderer.mixture(self.stage(share)['mixture'])
            lr = self.lr * min(1, (done + 1) / 150) * (0.5 + 0.5 * math.cos(math.pi * min(1, share))) + 1e-5
            for group in self.optimizer.param_groups:
                group['lr'] = lr
            with torch.no_grad():
                x, target = self.batch(self.stage(share))
            if self.device.type == 'cuda':
                with torch.autocast('cuda', torch.bfloat16):
                    full, half = self.model(x)
            else:
                full, half = self.model(x)
            parts = head_losses(full, half, target, self.config['wireWeight'])
            loss = total(parts)
            self.optimizer.zero_grad(set_to_none=True)
            loss.backward()
            torch.nn.utils.clip_grad_norm_(self.net.parameters(), 1.0)
            self.optimizer.step()
            self.update_average(done)
            self.pool.feed(args.batch)
            for k, v in parts.items():
                sums[k] = sums.get(k, 0) + v.detach()
            done += 1
            self.state['step'] += 1
            self.state['images'] += args.batch * self.world
            if done in (1, 40) or done == 1000:
                self.contact_sheet(x, target, f'{args.name}-scenes-{done}')
            every = 20 if done <= 100 else 200
            if done % every == 0:
                now = time.time()
                self.say(f'step {done} share {share:.2f} lr {lr:.5f} images/s {every * args.batch * self.world / (now - last):.0f}',
                         f'made {self.pool.made * self.world} seen {self.state["images"] - first_images}',
                         ' '.join(f'{k} {float(v) / every:.3f}' for k, v in sums.items()))
                sums, last = {}, now
                if now - saved > 60:
                    self.save()
                    saved = now
        self.pool.stop()
        if self.device.type == 'cuda':
            torch.cuda.synchronize()
        # The counter that later runs go on from must lie beyond every seed drawn on any GPU.
        self.state['next_seed'] += self.pool.made * 2 + 100000
        self.state['gpu_seconds'] += (time.time() - self.started) * self.world
        self.state['history'].append({'steps': done, 'images': done * args.batch * self.world, 'made': self.pool.made * self.world,
                                      'seconds': round(time.time() - self.started), 'gpus': self.world,
                                      'config': self.config})
        self.save()
        if self.rank == 0:
            for name, figures in self.validate().items():
                self.say('validation', name, json.dumps(figures))
        self.say('done', done, 'steps', self.state['images'], 'images in all runs')
        if self.world > 1:
            dist.destroy_process_group()


if __name__ == '__main__':
    Trainer(arguments()).run()
