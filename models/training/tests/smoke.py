"""Runs the trainer on the CPU for a few steps over flat capsules: python3 tests/smoke.py OUT_FOLDER SECONDS [args]."""
import sys
import time
from pathlib import Path

sys.path[:0] = [str(Path(__file__).parent), str(Path(__file__).parent.parent)]
from capsules import Capsules  # noqa: E402
import train  # noqa: E402

out, seconds, *rest = sys.argv[1:]
sys.argv = ['train.py', '--library', '-', '--out', out, '--stop-at', str(time.time() + float(seconds)), '--batch', '8',
            '--groups', '4', '--pool', '32', '--chunk', '8', '--validation', '4', '--workers-cpu', *rest]
train.Trainer(train.arguments(), Capsules).run()
