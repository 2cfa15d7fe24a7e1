"""Writes a trained head as ONNX: exporting.py HEAD.pt,HEAD.pt... OUT.onnx [8|16].

Matrices are kept as whole numbers of 8 bits, a step a row, or as numbers of 16 bits; both are
widened when the model is read, so the sums are the same whatever the runtime.

Inputs `x` [1, states, 288] of the encoder and `sound` [1, samples]; output `y` [1, 2 states, 40],
or [1, states, 40] with a row every 24 ms.
A head that hears the sound alone has no `x`.
"""
import sys

import numpy as np
import onnx
import onnx.numpy_helper
import torch
from onnx import TensorProto, helper

from head import Head


def main():
    sources, out = sys.argv[1:3]
    bits = int(sys.argv[3]) if len(sys.argv) > 3 else 8
    kept = [torch.load(path, map_location='cpu') for path in sources.split(',')]
    size = kept[0]['size']
    # Heads that went on from the same one are averaged.
    weights = {
        name: sum(each['weights'][name].float() for each in kept) / len(kept) for name in kept[0]['weights']
    }
    head = Head(**size).eval()
    head.load_state_dict(weights)
    samples = 384 * 60 + 600
    states = (samples - 895) // 384 + 1
    given = (torch.randn(1, states, 288), torch.randn(1, samples) * .1)
    names, shapes = ['x', 'sound'], {'x': {1: 'states'}, 'sound': {1: 'samples'}, 'y': {1: 'rows'}}
    if head.alone:
        head, given = Alone(head), given[1:]
        names, shapes = names[1:], {name: shapes[name] for name in ('sound', 'y')}
    more = {'dynamo': False} if torch.__version__ >= '2.5' else {}
    torch.onnx.export(
        head, given, out, input_names=names, output_names=['y'], dynamic_axes=shapes,
        opset_version=14, **more,
    )
    model = onnx.load(out)
    packed(model, bits)
    onnx.checker.check_model(model)
    onnx.save(model, out)
    print(sum(p.numel() for p in head.parameters()) / 1e6, 'M parameters')


class Alone(torch.nn.Module):
    def __init__(self, head):
        super().__init__()
        self.head = head

    def forward(self, sound):
        return self.head(None, sound)


def packed(model, bits):
    """Large constants are kept small, with nodes that widen them."""
    graph = model.graph
    nodes = []
    for held in list(graph.initializer):
        values = onnx.numpy_helper.to_array(held)
        if held.data_type != TensorProto.FLOAT or values.size < 1000:
            continue
        name = held.name
        graph.initializer.remove(held)
        if bits == 8 and values.ndim == 2:
            # Matrices are used as [in, out]: one step for each output.
            step = np.maximum(np.abs(values).max(0, keepdims=True) / 127, 1e-12).astype(np.float32)
            whole = np.round(values / step).astype(np.int8)
            graph.initializer.append(onnx.numpy_helper.from_array(whole, name + '_whole'))
            graph.initializer.append(onnx.numpy_helper.from_array(step, name + '_step'))
            nodes.append(helper.make_node('Cast', [name + '_whole'], [name + '_wide'], to=TensorProto.FLOAT))
            nodes.append(helper.make_node('Mul', [name + '_wide', name + '_step'], [name]))
        else:
            half = onnx.numpy_helper.from_array(values.astype(np.float16), name + '_half')
            graph.initializer.append(half)
            nodes.append(helper.make_node('Cast', [name + '_half'], [name], to=TensorProto.FLOAT))
    for at, node in enumerate(nodes):
        graph.node.insert(at, node)


if __name__ == '__main__':
    main()
