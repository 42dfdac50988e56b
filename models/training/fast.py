"""Lets a network on the GPU train with the kernels of fast.cu, wherever they agree with PyTorch and are faster.

`accelerate(net, library, say)` tries each kind of kernel at this network's largest shape first: one that is off, or
slower, is left to PyTorch. Parameters and their names stay as they are.
"""
import ctypes
import functools
import time

import torch
import torch.nn.functional as F

_lib = None


def _stream():
    return ctypes.c_void_p(torch.cuda.current_stream().cuda_stream)


def _p(t):
    return ctypes.c_void_p(t.data_ptr())


def _ok(code):
    if code:
        raise RuntimeError(f'CUDA error {code} in fast.cu')


class Depthwise(torch.autograd.Function):
    """3x3, padding 1, stride 1 or 2; x [n, c, h, w] bfloat16, weight [c, 1, 3, 3] float32."""

    @staticmethod
    def forward(ctx, x, weight, stride):
        x = x.contiguous()
        n, c, h, w = x.shape
        y = torch.empty(n, c, (h - 1) // stride + 1, (w - 1) // stride + 1, dtype=x.dtype, device=x.device)
        weight = weight.float().contiguous()
        _ok(_lib.hp_dw_forward(_p(x), _p(weight), _p(y), n, c, h, w, stride, 0, _stream()))
        ctx.save_for_backward(x, weight)
        ctx.stride = stride
        return y

    @staticmethod
    def backward(ctx, dy):
        x, weight = ctx.saved_tensors
        dy = dy.to(x.dtype).contiguous()
        n, c, h, w = x.shape
        dx, dw = torch.empty_like(x), torch.zeros_like(weight)
        _ok(_lib.hp_dw_backward(_p(dy), _p(weight), _p(dx), n, c, h, w, ctx.stride, _stream()))
        _ok(_lib.hp_dw_backward_weight(_p(x), _p(dy), _p(dw), n, c, h, w, ctx.stride, _stream()))
        return dx, dw, None


class Norm(torch.autograd.Function):
    """Batch norm in training mode, then ReLU6 where asked; x bfloat16 with h * w a multiple of 8."""

    @staticmethod
    def forward(ctx, x, gamma, beta, running_mean, running_var, eps, momentum, relu6):
        x = x.contiguous()
        n, c, h, w = x.shape
        y = torch.empty_like(x)
        sums = torch.zeros(2, c, device=x.device)
        stats = torch.empty(2, c, device=x.device)
        _ok(_lib.hp_bn_forward(_p(x), _p(gamma), _p(beta), _p(running_mean), _p(running_var), _p(sums), _p(stats), _p(y), n, c,
                               h * w, ctypes.c_float(eps), ctypes.c_float(momentum), int(relu6), _stream()))
        ctx.save_for_backward(x, gamma, beta, stats)
        ctx.relu6 = relu6
        return y

    @staticmethod
    def backward(ctx, dy):
        x, gamma, beta, stats = ctx.saved_tensors
        dy = dy.to(x.dtype).contiguous()
        n, c, h, w = x.shape
        sums, dx = torch.zeros(2, c, device=x.device), torch.empty_like(x)
        _ok(_lib.hp_bn_backward(_p(x), _p(dy), _p(stats), _p(gamma), _p(beta), _p(sums), _p(dx), n, c, h * w, int(ctx.relu6), _stream()))
        return dx, sums[1], sums[0], None, None, None, None, None


def pointwise(x, weight):
    """1x1 convolution as one matrix product a picture; weight [o, i, 1, 1]."""
    n, c, h, w = x.shape
    y = torch.matmul(weight.reshape(weight.shape[0], c), x.reshape(n, c, h * w))
    return y.reshape(n, -1, h, w)


def norm(x, module, relu6):
    return Norm.apply(x, module.weight, module.bias, module.running_mean, module.running_var, module.eps, module.momentum, relu6)


def _unit(sequence, use, plain, x):
    """Stands in for Sequential(conv, batch norm[, ReLU6]) while training on bfloat16."""
    conv, bn = sequence[0], sequence[1]
    if not sequence.training:
        return plain(x)
    if conv.groups > 1 and 'depthwise' in use and x.dtype == torch.bfloat16:
        y = Depthwise.apply(x, conv.weight, conv.stride[0])
    elif conv.kernel_size == (1, 1) and 'pointwise' in use:
        y = pointwise(x, conv.weight)
    else:
        y = conv(x)
    if 'norm' in use and y.dtype == torch.bfloat16 and y.shape[-1] * y.shape[-2] % 8 == 0:
        return norm(y, bn, len(sequence) > 2)
    y = bn(y)
    return F.relu6(y) if len(sequence) > 2 else y


def _compare(ours, theirs, x, parameters):
    """Largest relative difference of output and gradients, and milliseconds forward and back of both."""
    results, times = [], []
    for work in (ours, theirs):
        for _ in range(3):
            inputs = x.detach().requires_grad_()
            leaves = [p.detach().clone().requires_grad_() for p in parameters]
            with torch.autocast('cuda', torch.bfloat16):
                y = work(inputs, *leaves)
            grad = torch.sin(torch.arange(y.numel(), device=y.device) * 0.37).reshape(y.shape).to(y.dtype)
            torch.cuda.synchronize()
            start = time.time()
            with torch.autocast('cuda', torch.bfloat16):
                y = work(inputs, *leaves)
            y.backward(grad)
            torch.cuda.synchronize()
            spent = time.time() - start
        results.append([y.detach().float(), inputs.grad.float()] + [p.grad.float() for p in leaves])
        times.append(spent * 1000)
    off = max(float((a - b).norm() / (b.norm() + 1e-6)) for a, b in zip(*results))
    return off, times[0], times[1]


def accelerate(net, library, batch, size, say=print):
    """Call after copies for moving averages were made: they go on with PyTorch's own layers."""
    global _lib
    _lib = ctypes.CDLL(str(library))
    for name in ('hp_dw_forward', 'hp_dw_backward', 'hp_dw_backward_weight', 'hp_bn_forward', 'hp_bn_backward'):
        getattr(_lib, name).restype = ctypes.c_int
    d = torch.device('cuda', torch.cuda.current_device())
    c, side = 60, size // 2
    g = torch.Generator(device=d).manual_seed(1)
    x = torch.randn(batch, c, side, side, device=d, generator=g).to(torch.bfloat16)
    w = torch.randn(c, 1, 3, 3, device=d, generator=g) / 3
    w1 = torch.randn(20, c, 1, 1, device=d, generator=g) / 8
    gamma, beta = torch.rand(c, device=d, generator=g) + 0.5, torch.randn(c, device=d, generator=g)
    mean, var = torch.zeros(c, device=d), torch.ones(c, device=d)
    trials = {
        'depthwise': [(lambda a, k: Depthwise.apply(a, k, 1), lambda a, k: F.conv2d(a, k, None, 1, 1, 1, c), [w]),
                      (lambda a, k: Depthwise.apply(a, k, 2), lambda a, k: F.conv2d(a, k, None, 2, 1, 1, c), [w])],
        'pointwise': [(pointwise, lambda a, k: F.conv2d(a, k), [w1])],
        'norm': [(lambda a, s, b: Norm.apply(a, s, b, mean.clone(), var.clone(), 1e-5, 0.1, True),
                  lambda a, s, b: F.relu6(F.batch_norm(a, mean.clone(), var.clone(), s, b, True, 0.1, 1e-5)), [gamma, beta])],
    }
    use = set()
    for kind, cases in trials.items():
        try:
            seen = [_compare(ours, theirs, x, parameters) for ours, theirs, parameters in cases]
        except RuntimeError as problem:
            say(f'{kind}: left to PyTorch, {problem}')
            continue
        good = all(off < 0.02 for off, _, _ in seen) and sum(s[1] for s in seen) < sum(s[2] for s in seen)
        say(f'{kind}: {"used" if good else "left to PyTorch"};', '; '.join(f'off {o:.4f}, {a:.2f} ms against {b:.2f}' for o, a, b in seen))
        if good:
            use.add(kind)
    for module in net.modules():
        if isinstance(module, torch.nn.Sequential) and len(module) in (2, 3) and isinstance(module[0], torch.nn.Conv2d):
            module.forward = functools.partial(_unit, module, frozenset(use), type(module).forward.__get__(module))
    return use
