"""The conductor network: a U-Net of inverted residuals, about 0.44 million parameters.

Input: sRGB-encoded picture in 0..1, [n, 3, h, w], h and w multiples of 32.
Output: `full` [n, 10, h, w] and `half` [n, 15, h/2, w/2]; FULL and HALF name the channels.

Only operations that exist, and agree to rounding, in PyTorch and in tfjs are used: convolution, depthwise
convolution, ReLU6, half-pixel bilinear resizing, addition, pixel shuffle. Batch norm folds into the convolution
before it when the network is exported.
"""
import torch
import torch.nn as nn
import torch.nn.functional as F

COVERINGS = ('background', 'insulated', 'bare', 'jacket')
FULL = COVERINGS + ('tape', 'edge', 'cos2t', 'sin2t', 'log-half-width', 'center')
COLORS = ('black', 'brown', 'red', 'orange', 'yellow', 'green', 'blue', 'violet', 'gray', 'white', 'pink',
          'turquoise', 'green-yellow')
HALF = COLORS + ('no-color', 'stripe')

# Channels at 1/2, 1/4, 1/8, 1/16 and 1/32 of the picture, and residual blocks after each step down.
WIDTHS = (20, 24, 40, 72, 128)
DEPTHS = (1, 2, 3, 2)
MEAN, SPREAD = 0.45, 0.27


def conv_bn(i, o, k=1, stride=1, groups=1, act=True):
    """Convolution, batch norm and, where `act`, ReLU6."""
    layers = [nn.Conv2d(i, o, k, stride, k // 2, groups=groups, bias=False), nn.BatchNorm2d(o)]
    return nn.Sequential(*layers, *([nn.ReLU6(True)] if act else []))


class Block(nn.Module):
    """Inverted residual: widen, look around, narrow; added to its input where the shapes agree."""

    def __init__(self, i, o, stride=1, expand=3):
        super().__init__()
        hidden = i * expand
        self.residual = stride == 1 and i == o
        self.widen = conv_bn(i, hidden)
        self.look = conv_bn(hidden, hidden, 3, stride, hidden)
        self.narrow = conv_bn(hidden, o, act=False)

    def forward(self, x):
        y = self.narrow(self.look(self.widen(x)))
        return x + y if self.residual else y


class Up(nn.Module):
    """Brings a coarse map to the size of a finer one, adds both after matching their channels, then refines."""

    def __init__(self, coarse, fine, expand):
        super().__init__()
        self.lift = conv_bn(coarse, fine, act=False)
        self.skip = conv_bn(fine, fine, act=False)
        self.refine = nn.Sequential(Block(fine, fine, 1, expand), Block(fine, fine, 1, expand))

    def forward(self, coarse, fine):
        lifted = F.interpolate(self.lift(coarse), size=fine.shape[-2:], mode='bilinear', align_corners=False)
        return self.refine(lifted + self.skip(fine))


class Net(nn.Module):
    def __init__(self, widths=WIDTHS, depths=DEPTHS, head=32):
        super().__init__()
        self.stem = conv_bn(3, widths[0], 3, 2)
        self.down = nn.ModuleList([
            nn.Sequential(Block(widths[i], widths[i + 1], 2, 3),
                          *[Block(widths[i + 1], widths[i + 1], 1, 3 if i < 3 else 2) for _ in range(depths[i])])
            for i in range(4)])
        self.up = nn.ModuleList([Up(widths[i + 1], widths[i], 2 if i == 3 else 3) for i in reversed(range(4))])
        self.head = conv_bn(widths[0], head, 3)
        self.fine = nn.Conv2d(head, len(FULL) * 4, 1)
        self.coarse = nn.Conv2d(head, len(HALF), 1)
        self.shuffle = nn.PixelShuffle(2)

    def forward(self, x):
        skips = [self.stem((x - MEAN) / SPREAD)]
        for down in self.down:
            skips.append(down(skips[-1]))
        y = skips[-1]
        for up, skip in zip(self.up, reversed(skips[:-1])):
            y = up(y, skip)
        y = self.head(y)
        return self.shuffle(self.fine(y)), self.coarse(y)


def wire_logit(full):
    """Log-odds that a pixel is any conductor (insulated, bare or jacketed), [n, 1, h, w]."""
    return torch.logsumexp(full[:, 1:4], 1, keepdim=True) - full[:, 0:1]


def load_net(path, device='cpu', which='ema'):
    """A network in evaluation mode from a checkpoint written by train.py."""
    state = torch.load(path, map_location='cpu')
    net = Net()
    net.load_state_dict({k: v.float() if v.is_floating_point() else v for k, v in state[which].items()})
    return net.eval().to(device)
