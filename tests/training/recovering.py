"""A committed head as weights to go on from: recovering.py HEAD.onnx VARIANT OUT.pt

What exporting.py made of matrices and folded numbers is turned back; 8-bit steps stay in them.
"""
import re
import sys

import onnx
import onnx.numpy_helper
import torch

from head import Head
from training import VARIANTS


def main():
    source, variant, out = sys.argv[1:4]
    graph = onnx.load(source).graph
    held = {each.name: onnx.numpy_helper.to_array(each) for each in graph.initializer}
    head = Head(**VARIANTS[variant]['size'])
    wanted = head.state_dict()
    found = {}
    for name, values in held.items():
        plain = re.sub(r'^head\.', '', name)
        if plain.endswith('_half'):
            plain = plain[:-5]
        if plain in wanted:
            found[plain] = torch.from_numpy(values.astype('float32'))
    for node in graph.node:
        if node.op_type != 'MatMul':
            continue
        whole = held.get(f'{node.input[1]}_whole')
        match = re.match(r'/(?:head/)?(.*)/MatMul_output_0$', node.output[0])
        if whole is None or match is None:
            continue
        name = match.group(1).replace('/', '.') + '.weight'
        matrix = whole.astype('float32') * held[f'{node.input[1]}_step']
        if name in wanted:
            found[name] = torch.from_numpy(matrix.T.copy())
    lacking = [name for name in wanted if name not in found]
    if lacking:
        raise ValueError('Not in the file: ' + ', '.join(lacking))
    head.load_state_dict(found)
    torch.save(dict(size=VARIANTS[variant]['size'], weights=found), out)


if __name__ == '__main__':
    main()
