"""python3 -m unittest discover -s models/training/tests   (needs PyTorch, NumPy and Pillow; no GPU)"""
import io
import sys
import unittest
from pathlib import Path

import numpy as np
import torch
from PIL import Image

sys.path[:0] = [str(Path(__file__).parent), str(Path(__file__).parent.parent)]
import backgrounds  # noqa: E402
import camera  # noqa: E402
from average import average  # noqa: E402
from capsules import Capsules  # noqa: E402
from export import Exporter, pattern  # noqa: E402
from net import Net  # noqa: E402
from targets import crop, instance_weights, make_targets, touching_edges  # noqa: E402


class Jpeg(unittest.TestCase):
    """Against libjpeg, an independent implementation of ITU-T T.81."""

    def difference(self, quality, told):
        torch.manual_seed(3)
        picture = (torch.nn.functional.interpolate(torch.rand(1, 3, 24, 24), (160, 192), mode='bicubic')[0].clamp(0, 1) * 255).byte()
        stored = io.BytesIO()
        Image.fromarray(picture.permute(1, 2, 0).numpy()).save(stored, 'JPEG', quality=quality, subsampling=2)
        theirs = np.asarray(Image.open(stored)).astype(float)
        ours = camera.jpeg(picture[None].float() / 255, torch.tensor([float(told)]))[0].permute(1, 2, 0).numpy() * 255
        return abs(theirs - ours).mean()

    def test_agrees(self):
        for quality in (20, 50, 85):
            self.assertLess(self.difference(quality, quality), 1.5)

    def test_twin_another_quality_differs(self):
        self.assertGreater(self.difference(20, 85), 2 * self.difference(20, 20))


class Scenery(unittest.TestCase):
    """A photograph takes the place of the ground and of nothing else."""

    def setUp(self):
        torch.manual_seed(5)
        self.linear = torch.rand(4, 3, 64, 64)
        self.free = torch.ones(4, 1, 64, 64)
        self.free[:, :, 20:30] = 0

    def test_conductors_and_other_pictures_stay(self):
        got = backgrounds.scenery(self.linear, self.free, torch.rand(3, 3, 96, 96), 0.5)
        self.assertEqual(0, (got - self.linear)[:2].abs().max())
        self.assertEqual(0, (got - self.linear)[2:, :, 20:30].abs().max())

    def test_twin_the_ground_changes(self):
        got = backgrounds.scenery(self.linear, self.free, torch.rand(3, 3, 96, 96), 0.5)
        self.assertGreater((got - self.linear)[2:, :, 40:].abs().mean(), 0.1)


class Average(unittest.TestCase):
    def test_is_the_mean_and_keeps_the_rest_of_the_last(self):
        one, two = ({'ema': {'w': torch.tensor([v]), 'n': torch.tensor(int(v))}, 'net': v} for v in (1.0, 4.0))
        got = average([one, two])
        self.assertEqual(2.5, got['ema']['w'].item())
        self.assertEqual((4, 4.0), (got['ema']['n'].item(), got['net']))
        self.assertEqual(4.0, two['ema']['w'].item())


class Crops(unittest.TestCase):
    def setUp(self):
        self.planes = Capsules('-', 'cpu').render(np.array([7]), None, 96)

    def errors(self, turn, labels=None):
        """How far labelled directions are from the long axis of each conductor's own pixels."""
        _, labels = crop(self.planes, slice(None), 0, 0, 96, 96, turn)
        worst = []
        for i in range(1, 5):
            own = (labels['instance'][0] == i).numpy()
            if own.sum() < 250:
                continue
            y, x = np.nonzero(own)
            cov = np.cov(np.stack([x, y]))
            values, vectors = np.linalg.eigh(cov)
            if values[1] < 8 * values[0]:
                continue
            t = np.arctan2(vectors[1, 1], vectors[0, 1])
            c, s = labels['cos2t'][0][own].mean().item(), labels['sin2t'][0][own].mean().item()
            worst.append(np.hypot(c - np.cos(2 * t), s - np.sin(2 * t)))
        self.assertTrue(worst)
        return max(worst)

    def test_directions_turn_with_the_picture(self):
        for turn in range(8):
            self.assertLess(self.errors(turn), 0.25)

    def test_twin_unturned_labels_are_wrong(self):
        self.planes['geometry'][:, 1] *= -1
        self.assertGreater(self.errors(0), 0.25)

    def test_half_width_scales(self):
        _, a = crop(self.planes, slice(None), 0, 0, 96, 96, 0)
        _, b = crop(self.planes, slice(None), 0, 0, 96, 48, 0)
        self.assertAlmostEqual(float(a['half_width'].max()) / 2, float(b['half_width'].max()), places=4)


class Targets(unittest.TestCase):
    def test_edges_between_touching_conductors_only(self):
        instance = torch.zeros(1, 8, 8, dtype=torch.int16)
        instance[0, :, 2:4], instance[0, :, 4:6] = 1, 2
        edge = touching_edges(instance)[0, 0]
        self.assertEqual(edge[4].tolist(), [0, 0, 0, 1, 1, 0, 0, 0])

    def test_small_conductors_weigh_more(self):
        instance = torch.zeros(1, 64, 64, dtype=torch.int16)
        instance[0, :, :40], instance[0, 10:14, 50:60] = 1, 2
        weight = instance_weights(instance)[0, 0]
        self.assertGreater(weight[12, 55], 2 * weight[12, 5])

    def test_shapes(self):
        planes = Capsules('-', 'cpu').render(np.array([1, 2]), None, 64)
        target = make_targets(crop(planes, slice(None), 0, 0, 64, 64, 0)[1])
        self.assertEqual(tuple(target['color'].shape), (2, 32, 32))
        self.assertTrue(((target['kind'] > 0) == (target['wire'][:, 0] > 0)).all())


class Export(unittest.TestCase):
    def test_folded_network_equals_the_trained_one(self):
        torch.manual_seed(5)
        net = Net().eval()
        for m in net.modules():
            if isinstance(m, torch.nn.BatchNorm2d):
                m.running_mean.normal_(0, 0.2)
                m.running_var.uniform_(0.5, 1.5)
                m.weight.data.uniform_(0.7, 1.3)
        with torch.no_grad():
            run = Exporter()
            full, half = run.net(net, pattern(32, 64))
            a, b = net(pattern(32, 64))
            self.assertLess(float((run.values[full] - a).abs().max()), 0.02 * float(a.abs().max()))
            self.assertLess(float((run.values[half] - b).abs().max()), 0.02 * float(b.abs().max()))


if __name__ == '__main__':
    unittest.main()
