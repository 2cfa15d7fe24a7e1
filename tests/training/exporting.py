"""Writes a trained head as ONNX: exporting.py HEAD.pt OUT.onnx. Weights are kept as 16-bit numbers.

Inputs `x` [1, states, 288] of the encoder and `sound` [1, samples]; output `y` [1, 2 states, 40].
"""
import sys

import numpy as np
import onnx
import onnx.numpy_helper
import torch
from onnx import TensorProto, helper

from head import Head


def main():
    source, out = sys.argv[1:3]
    kept = torch.load(source, map_location='cpu')
    head = Head(**kept['size']).eval()
    head.load_state_dict(kept['weights'], strict=False)
    samples = 384 * 60 + 600
    states = (samples - 895) // 384 + 1
    given = (torch.randn(1, states, 288), torch.randn(1, samples) * .1)
    names, shapes = ['x', 'sound'], {'x': {1: 'states'}, 'sound': {1: 'samples'}, 'y': {1: 'rows'}}
    if not kept['size'].get('tones'):
        given, names = (given[0], given[1]), ['x', 'sound']
    more = {'dynamo': False} if torch.__version__ >= '2.5' else {}
    torch.onnx.export(
        head, given, out, input_names=names, output_names=['y'], dynamic_axes=shapes,
        opset_version=14, **more,
    )
    model = onnx.load(out)
    halved(model)
    onnx.checker.check_model(model)
    onnx.save(model, out)
    print(sum(p.numel() for p in head.parameters()) / 1e6, 'M parameters')


def halved(model):
    """Large constants become 16-bit numbers that are widened when the model is read."""
    graph = model.graph
    casts = []
    for held in list(graph.initializer):
        values = onnx.numpy_helper.to_array(held)
        if held.data_type != TensorProto.FLOAT or values.size < 1000:
            continue
        name = held.name
        half = onnx.numpy_helper.from_array(values.astype(np.float16), name + '_half')
        graph.initializer.remove(held)
        graph.initializer.append(half)
        casts.append(helper.make_node('Cast', [name + '_half'], [name], to=TensorProto.FLOAT))
    for at, cast in enumerate(casts):
        graph.node.insert(at, cast)


if __name__ == '__main__':
    main()
