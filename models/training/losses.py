"""One loss for each head, and their weighted sum."""
import torch
import torch.nn.functional as F

from net import FULL, HALF, wire_logit

TAPE, EDGE, COS, SIN, WIDTH, CENTER = (FULL.index(k) for k in ('tape', 'edge', 'cos2t', 'sin2t', 'log-half-width', 'center'))
STRIPE = HALF.index('stripe')
WEIGHTS = {'wire': 2.0, 'dice': 0.5, 'kind': 0.3, 'tape': 0.1, 'edge': 0.4, 'direction': 0.4, 'width': 0.2,
           'center': 0.3, 'color': 0.35, 'stripe': 0.1}


def mean_over(loss, mask):
    return (loss * mask).sum() / (mask.sum() + 1)


def head_losses(full, half, target, wire_weight=2.0):
    """`wire_weight`: how much more a missed conductor pixel costs than an invented one."""
    full, half = full.float(), half.float()
    wire, weight = target['wire'], target['weight']
    z = wire_logit(full)
    p = z.sigmoid()
    bce = F.binary_cross_entropy_with_logits(z, wire, reduction='none')
    focus = (0.3 + 0.7 * (p - wire).abs()).detach()
    cost = bce * focus * weight * (1 + (wire_weight - 1) * wire)
    overlap = (p * wire).sum((1, 2, 3))
    size = p.sum((1, 2, 3)) + wire.sum((1, 2, 3))
    has = (wire.sum((1, 2, 3)) > 50).float()
    dice = (1 - (2 * overlap + 1) / (size + 1)) * has
    kind = F.cross_entropy(full[:, 1:4], (target['kind'] - 1).clamp(min=0), reduction='none',
                           weight=torch.tensor([1.0, 2.0, 1.0], device=full.device))[:, None]
    near = F.max_pool2d(wire, 5, 1, 2)
    triple = torch.tensor(3.0, device=full.device)
    edge = F.binary_cross_entropy_with_logits(full[:, EDGE:EDGE + 1], target['edge'], reduction='none', pos_weight=triple)
    tape = F.binary_cross_entropy_with_logits(full[:, TAPE:TAPE + 1], target['tape'], reduction='none', pos_weight=triple)
    direction = F.smooth_l1_loss(full[:, COS:SIN + 1], target['direction'], reduction='none', beta=0.2).sum(1, keepdim=True)
    width = F.smooth_l1_loss(full[:, WIDTH:WIDTH + 1], target['log_half_width'], reduction='none', beta=0.2)
    center = F.binary_cross_entropy_with_logits(full[:, CENTER:CENTER + 1], target['center'], reduction='none')
    color = F.cross_entropy(half[:, :STRIPE], target['color'], ignore_index=255, reduction='none')[:, None]
    asked = (target['color'] != 255).float()[:, None] * torch.where(target['color'] == 13, 0.1, 1.0)[:, None]
    small_wire = F.avg_pool2d(wire, 2)
    stripe = F.binary_cross_entropy_with_logits(half[:, STRIPE:STRIPE + 1], target['stripe'], reduction='none', pos_weight=triple)
    return {
        'wire': cost.mean(), 'dice': dice.mean(), 'kind': mean_over(kind, wire * weight), 'tape': mean_over(tape, wire),
        'edge': mean_over(edge, near), 'direction': mean_over(direction, wire * weight), 'width': mean_over(width, wire * weight),
        'center': mean_over(center, wire + 0.1 * near), 'color': mean_over(color, asked), 'stripe': mean_over(stripe, small_wire),
    }


def total(losses, weights=WEIGHTS):
    return sum(weights[k] * v for k, v in losses.items())
