"""The scene renderer (render/api.h) as seen from Python, and a pool of rendered scenes that training draws from."""
import ctypes
import queue
import threading

import numpy as np
import torch

PLANES = ('rgb', 'covering', 'instance', 'geometry', 'color', 'stripe', 'depth')


class Outputs(ctypes.Structure):
    """hp_outputs of render/api.h."""
    _fields_ = [(name, ctypes.c_void_p) for name in PLANES]


class Renderer:
    """libhprender.so: the CUDA build fills tensors on `device`, the CPU build host tensors.

    `backgrounds`: linear photographic backdrops [m, 3, s, s] float32 on `device`, or None.
    """

    def __init__(self, library, device, backgrounds=None, threads=None, samples=None):
        lib = ctypes.CDLL(str(library))
        lib.hp_generator_name.restype = ctypes.c_char_p
        lib.hp_last_error.restype = ctypes.c_char_p
        lib.hp_prepare.restype = ctypes.c_void_p
        lib.hp_prepare.argtypes = [ctypes.c_void_p, ctypes.c_void_p, ctypes.c_int, ctypes.c_int, ctypes.c_int]
        lib.hp_submit.argtypes = [ctypes.c_void_p, ctypes.c_int, ctypes.c_void_p, ctypes.c_int, ctypes.c_int,
                                  ctypes.POINTER(Outputs), ctypes.c_void_p]
        lib.hp_set_marked.argtypes = [ctypes.c_float]
        if threads:
            lib.hp_set_threads(threads)
        if samples:
            lib.hp_set_samples(samples)
        self.lib, self.device, self.backgrounds = lib, torch.device(device), backgrounds
        self.names = [lib.hp_generator_name(i).decode() for i in range(lib.hp_generator_count())]

    def mark(self, share):
        """From now on this share of the scenes gets stripes and tape on its conductors (render/marks.hpp)."""
        self.lib.hp_set_marked(share)

    def mixture(self, weights):
        """Weights by generator name as the array the library takes. Unknown names are refused: they are typing slips."""
        unknown = set(weights) - set(self.names) - {'*'}
        if unknown:
            raise ValueError(f'no such generators: {sorted(unknown)}; there are {self.names}')
        return np.array([weights.get(n, weights.get('*', 0)) for n in self.names], np.float32)

    def prepare(self, seeds, mixture):
        """Starts making scenes on the host; hand the result to `submit`."""
        seeds = np.ascontiguousarray(seeds, np.uint64)
        count = 0 if self.backgrounds is None else len(self.backgrounds)
        handle = self.lib.hp_prepare(seeds.ctypes.data, mixture.ctypes.data, len(mixture), len(seeds), count)
        if not handle:
            raise RuntimeError(self.lib.hp_last_error().decode())
        return handle, seeds, mixture

    def submit(self, prepared, size):
        """Enqueues the rendering on the current stream. `instance` comes as int16 (ids stay small)."""
        handle, seeds, _ = prepared
        n, d = len(seeds), self.device
        out = {
            'rgb': torch.empty(n, 3, size, size, device=d),
            'covering': torch.empty(n, size, size, dtype=torch.uint8, device=d),
            'instance': torch.empty(n, size, size, dtype=torch.int16, device=d),
            'geometry': torch.empty(n, 4, size, size, device=d),
            'color': torch.empty(n, size, size, dtype=torch.uint8, device=d),
            'stripe': torch.empty(n, size, size, dtype=torch.uint8, device=d),
        }
        pointers = Outputs(**{k: v.data_ptr() for k, v in out.items()})
        bg = self.backgrounds
        stream = torch.cuda.current_stream(d).cuda_stream if d.type == 'cuda' else None
        code = self.lib.hp_submit(handle, size, None if bg is None else bg.data_ptr(), 0 if bg is None else len(bg),
                                  0 if bg is None else bg.shape[-1], ctypes.byref(pointers), stream)
        if code:
            raise RuntimeError(f'hp_submit: {code} {self.lib.hp_last_error().decode()}')
        return out

    def render(self, seeds, mixture, size):
        return self.submit(self.prepare(seeds, mixture), size)


class Pool:
    """A ring of rendered scenes on the device. A thread keeps making new ones; each is used about `reuse` times.

    Pictures are kept before the camera, so that every use has another crop, exposure and camera. `feed` and
    `planes` belong to the training thread; the making thread only touches tensors that it has not handed over.
    """

    def __init__(self, renderer, capacity, size, chunk, reuse, next_seed, mixture):
        self.renderer, self.capacity, self.size, self.chunk, self.reuse = renderer, capacity, size, chunk, reuse
        self.next_seed, self.mixture = next_seed, mixture
        self.filled = self.made = self.at = self.used = 0
        d = renderer.device
        half = torch.float16 if d.type == 'cuda' else torch.float32
        self.planes = {
            'rgb': torch.empty(capacity, 3, size, size, dtype=half, device=d),
            'covering': torch.empty(capacity, size, size, dtype=torch.uint8, device=d),
            'instance': torch.empty(capacity, size, size, dtype=torch.int16, device=d),
            'geometry': torch.empty(capacity, 4, size, size, dtype=half, device=d),
            'color': torch.empty(capacity, size, size, dtype=torch.uint8, device=d),
            'stripe': torch.empty(capacity, size, size, dtype=torch.uint8, device=d),
        }
        self.ready = queue.Queue(maxsize=2)
        self.room = threading.Semaphore(max(2, capacity // chunk // 2))
        self.owed = 0.0
        self.stopping = False
        self.failure = None
        self.waiting = []
        self.thread = threading.Thread(target=self._make, daemon=True)
        self.thread.start()

    def _prepare(self):
        seeds = np.arange(self.next_seed, self.next_seed + self.chunk, dtype=np.uint64)
        self.next_seed += self.chunk
        return self.renderer.prepare(seeds, self.mixture)

    def _make(self):
        try:
            d = self.renderer.device
            stream = torch.cuda.Stream(d) if d.type == 'cuda' else None
            self.waiting += [self._prepare(), self._prepare()]
            while not self.stopping:
                self.room.acquire()
                if stream is None:
                    item, done = self.renderer.submit(self.waiting.pop(0), self.size), None
                else:
                    with torch.cuda.device(d), torch.cuda.stream(stream):
                        item = self.renderer.submit(self.waiting.pop(0), self.size)
                        done = torch.cuda.Event()
                        done.record(stream)
                        # One batch at a time on the device, or the queue of kernels grows without end.
                        done.synchronize()
                self.waiting.append(self._prepare())
                self.ready.put((item, done))
        except BaseException as problem:  # handed to the training thread, which raises it
            self.failure = problem

    def feed(self, used):
        """Tells that `used` pictures were drawn, and takes over what is ready. Blocks until the pool holds something."""
        self.used += used
        self.owed += used / self.reuse
        while self.owed >= self.chunk:
            self.owed -= self.chunk
            self.room.release()
        while True:
            if self.failure is not None:
                raise self.failure
            try:
                item, _ = self.ready.get(block=self.filled == 0, timeout=5)
            except queue.Empty:
                if self.filled == 0:
                    continue
                return
            for name, plane in item.items():
                if plane.is_cuda:
                    plane.record_stream(torch.cuda.current_stream(plane.device))
                if plane.is_floating_point():
                    plane = plane.nan_to_num(0, 0, 0).clamp(-60000, 60000)
                self.planes[name][self.at:self.at + self.chunk] = plane
            self.at = (self.at + self.chunk) % self.capacity
            self.filled = min(self.capacity, self.filled + self.chunk)
            self.made += self.chunk

    def stop(self):
        """Ends the making thread and waits for it; the library's scratch memory is free for other calls then."""
        self.stopping = True
        self.room.release()
        while self.thread.is_alive():
            try:
                self.ready.get(timeout=0.1)
            except queue.Empty:
                pass
        for handle in self.waiting:
            self.renderer.submit(handle, 8)
