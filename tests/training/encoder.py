"""The frozen encoder of the ear in PyTorch, from its ONNX file, for many clips at a time.

The file holds matrices of whole numbers and quantises what enters them clip by clip; both are
done here as the runtime does them, so that the states are the product's own.
"""
import numpy as np
import onnx
import onnx.numpy_helper
import torch
import torch.nn.functional as F

HEADS, WIDTH, LAYERS, TURNED = 8, 288, 6, 32


class Encoder(torch.nn.Module):
    """sound [clips, samples] at 16 kHz -> states [clips, frames, 288], a frame every 384 samples."""

    def __init__(self, path):
        super().__init__()
        graph = onnx.load(path).graph
        held = {i.name: onnx.numpy_helper.to_array(i) for i in graph.initializer}
        # Matrices in the order in which they are used: q, k, v, dense, fc1, fc2 of each layer.
        used = [n for n in graph.node if n.op_type == 'MatMulInteger']
        found = {}
        for node in used:
            place = node.output[0].split('/')
            name = node.input[1]
            scale = held[name.replace('_quantized', '_scale')]
            zero = held[name.replace('_quantized', '_zero_point')]
            matrix = held[name].astype(np.float32) - np.float32(zero)
            key = f"{place[1].split('.')[1]}.{place[-2]}"
            found[key] = (matrix, float(scale))
        for key, (matrix, scale) in found.items():
            self.register_buffer(key.replace('.', '_'), torch.from_numpy(matrix))
            setattr(self, f"scale_{key.replace('.', '_')}", scale)
        for number in (1, 2, 3):
            name = f'conv{number}.weight'
            weight = held[f'{name}_quantized'].astype(np.float32) * held[f'{name}_scale']
            self.register_buffer(
                f'conv{number}', torch.from_numpy(weight + held[f'{name}_zero_point'])
            )
            if number > 1:
                self.register_buffer(f'bias{number}', torch.from_numpy(held[f'conv{number}.bias'].copy()))
        group = next(n for n in graph.node if n.output[0] == '/groupnorm/Mul_output_0')
        shift = next(n for n in graph.node if n.output[0] == '/groupnorm/Add_output_0')
        self.register_buffer('group', torch.from_numpy(held[group.input[1]].copy()))
        self.register_buffer('shift', torch.from_numpy(held[shift.input[1]].copy()))
        for name, value in held.items():
            if 'layernorm.weight' in name or name.endswith('mlp.fc1.bias') or name.endswith('mlp.fc2.bias'):
                self.register_buffer(name.replace('.', '_'), torch.from_numpy(value.copy()))
            if name.endswith('layer_norm.weight'):
                self.register_buffer('last', torch.from_numpy(value.copy()))
        if not hasattr(self, 'last'):
            raise ValueError('The encoder has no last norm: ' + ', '.join(k for k in held if 'norm' in k))
        turn = [held[n.input[0]] for n in graph.node if n.output[0] == '/rotary_emb/MatMul_output_0'][0]
        self.register_buffer('turn', torch.from_numpy(turn.reshape(-1).copy()))
        # q and k are each multiplied by this.
        root = [held[n.input[1]] for n in graph.node if n.output[0] == '/layers.0/self_attn/Mul_4_output_0'][0]
        self.root = float(np.asarray(root).reshape(-1)[0])

    def states(self, clip_count, frames, device):
        return torch.arange(frames, device=device).float()

    def quantised(self, x):
        """Each clip to whole numbers of 0 to 255 less their zero, and the step."""
        flat = x.flatten(1)
        low = flat.amin(1).clamp(max=0)
        high = flat.amax(1).clamp(min=0)
        step = ((high - low) / 255).clamp(min=1e-12)
        zero = torch.round(-low / step).clamp(0, 255)
        shape = (-1,) + (1,) * (x.dim() - 1)
        step, zero = step.view(shape), zero.view(shape)
        return (torch.round(x / step) + zero).clamp(0, 255) - zero, step

    def times(self, quantised, key):
        whole, step = quantised
        # Whole numbers of at most 255 are exact in TF32.
        return (whole @ getattr(self, key)) * (step * getattr(self, f'scale_{key}'))

    def norm(self, x, weight):
        return F.layer_norm(x, (WIDTH,), weight, None, 1e-5)

    def turned(self, x, cos, sin):
        first, rest = x[..., :TURNED], x[..., TURNED:]
        pairs = torch.stack((-first[..., 1::2], first[..., 0::2]), -1).flatten(-2)
        return torch.cat((first * cos + pairs * sin, rest), -1)

    @torch.no_grad()
    def forward(self, sound):
        clips = sound.shape[0]
        x = torch.tanh(F.conv1d(sound[:, None], self.conv1, stride=64))
        mean = x.mean((1, 2), keepdim=True)
        spread = x.var((1, 2), unbiased=False, keepdim=True)
        x = (x - mean) / torch.sqrt(spread + 1e-5) * self.group + self.shift
        x = F.gelu(F.conv1d(x, self.conv2, self.bias2, stride=3))
        x = F.gelu(F.conv1d(x, self.conv3, self.bias3, stride=2)).transpose(1, 2)
        frames = x.shape[1]
        angle = torch.arange(frames, device=x.device).float()[:, None] * self.turn
        angle = angle.repeat_interleave(2, -1)
        cos, sin = angle.cos(), angle.sin()
        for layer in range(LAYERS):
            at = f'layers_{layer}_'
            put = self.quantised(self.norm(x, getattr(self, at + 'input_layernorm_weight')))
            q, k, v = (
                self.times(put, f'{layer}_{name}').view(clips, frames, HEADS, -1).transpose(1, 2)
                for name in ('q_proj', 'k_proj', 'v_proj')
            )
            q, k = self.turned(q, cos, sin) * self.root, self.turned(k, cos, sin) * self.root
            mixed = (q @ k.transpose(-1, -2)).softmax(-1) @ v
            mixed = mixed.transpose(1, 2).reshape(clips, frames, WIDTH)
            x = x + self.times(self.quantised(mixed), f'{layer}_dense')
            y = self.norm(x, getattr(self, at + 'post_attention_layernorm_weight'))
            y = self.times(self.quantised(y), f'{layer}_fc1') + getattr(self, at + 'mlp_fc1_bias')
            y = self.times(self.quantised(F.gelu(y)), f'{layer}_fc2') + getattr(self, at + 'mlp_fc2_bias')
            x = x + y
        return self.norm(x, self.last)
