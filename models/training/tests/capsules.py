"""A stand-in for the renderer, for tests of the trainer alone: a few straight flat capsules on gray."""
import numpy as np
import torch


class Capsules:
    def __init__(self, library, device, backgrounds=None, threads=None, samples=None):
        self.device, self.names = torch.device(device), ['capsules', 'more-capsules']

    def mixture(self, weights):
        return np.array([weights.get(n, weights.get('*', 0)) for n in self.names], np.float32)

    def prepare(self, seeds, mixture):
        return seeds

    def submit(self, seeds, size):
        g = torch.Generator().manual_seed(int(seeds[0]) % (1 << 31))
        n = len(seeds)
        yy, xx = torch.meshgrid(torch.arange(size) + 0.5, torch.arange(size) + 0.5, indexing='ij')
        rgb = 0.3 + 0.1 * torch.randn(n, 3, 1, 1, generator=g).expand(n, 3, size, size).contiguous()
        covering = torch.zeros(n, size, size, dtype=torch.uint8)
        instance = torch.zeros(n, size, size, dtype=torch.int16)
        geometry = torch.zeros(n, 4, size, size)
        color = torch.full((n, size, size), 255, dtype=torch.uint8)
        for i in range(n):
            for k in range(4):
                t, r = float(torch.rand(1, generator=g)) * np.pi, 3 + 12 * float(torch.rand(1, generator=g))
                px, py = (float(v) * size for v in torch.rand(2, generator=g))
                across = (-(xx - px) * np.sin(t) + (yy - py) * np.cos(t)) / r
                inside = across.abs() < 1
                name = int(torch.randint(0, 13, (1,), generator=g))
                shade = (1 - across.abs() * 0.6)[None] * torch.rand(3, 1, 1, generator=g)
                rgb[i] = torch.where(inside, shade, rgb[i])
                covering[i][inside] = 1
                instance[i][inside] = k + 1
                color[i][inside] = name
                values = torch.stack([torch.full_like(across, np.cos(2 * t)), torch.full_like(across, np.sin(2 * t)), across, torch.full_like(across, r)])
                geometry[i] = torch.where(inside, values, geometry[i])
        return {'rgb': rgb.to(self.device), 'covering': covering, 'instance': instance, 'geometry': geometry, 'color': color,
                'stripe': torch.zeros_like(covering)}

    def render(self, seeds, mixture, size):
        return self.submit(seeds, size)
