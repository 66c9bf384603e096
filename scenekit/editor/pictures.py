"""Pictures kept to draw with, by number."""

from typing import Any

import numpy as np
from numpy.typing import NDArray

from scenekit.editor.binding import imgui, pygame
from scenekit.editor.painter import Painter
from scenekit.editor.triangles import Texture

FIRST_OWN_TEXTURE = 1000


class Pictures:
    """The pictures and typefaces of one window."""

    surface: pygame.Surface
    painter: Painter
    _next_texture: int

    def add_picture(self, pixels: NDArray[np.uint8]) -> int:
        """Keep a picture, (H, W, 3 or 4) uint8, to draw with; return its number."""
        self._next_texture += 1
        self.painter.textures[self._next_texture] = Texture(picture=_surface(pixels))
        return self._next_texture

    def add_mask(self, mask: NDArray[np.uint8]) -> int:
        """Keep a mask, (H, W) uint8, that is drawn in any colour."""
        self._next_texture += 1
        self.painter.textures[self._next_texture] = Texture(mask=mask)
        return self._next_texture

    def set_picture(self, number: int, pixels: NDArray[np.uint8]) -> None:
        """Give a kept picture new content."""
        texture = self.painter.textures[number]
        texture.picture = _surface(pixels)
        texture.version += 1

    def set_indexed(self, number: int, indices: NDArray[np.uint8], palette: NDArray[np.uint8]) -> None:
        """Give a kept picture the content of palette entries."""
        high, wide = indices.shape
        view = pygame.image.frombuffer(np.ascontiguousarray(indices).tobytes(), (wide, high), "P")
        view.set_palette([tuple(row) for row in palette.tolist()])
        texture = self.painter.textures[number]
        texture.picture = view.convert(self.surface)
        texture.version += 1

    def drop_picture(self, number: int) -> None:
        """Forget a kept picture."""
        self.painter.textures.pop(number, None)

    def picture_size(self, number: int) -> tuple[int, int]:
        """Return (width, height) of a kept picture."""
        return self.painter.textures[number].size

    def _font_texture(self, texture: Any) -> None:
        status = imgui.TextureStatus
        if texture.status == status.OK:
            return
        if texture.status == status.WANT_DESTROY:
            self.painter.textures.pop(texture.get_tex_id(), None)
            texture.set_tex_id(0)
            texture.set_status(status.DESTROYED)
            return
        pixels = np.array(texture.get_pixels()).reshape(texture.height, texture.width, -1)[..., -1]
        if texture.status == status.WANT_CREATE:
            number = 1 + max((n for n in self.painter.textures if n < FIRST_OWN_TEXTURE), default=0)
            self.painter.textures[number] = Texture(mask=pixels.copy())
            texture.set_tex_id(number)
        else:
            self.painter.textures[texture.get_tex_id()].mask = pixels.copy()
        texture.set_status(status.OK)


def _surface(pixels: NDArray[np.uint8]) -> pygame.Surface:
    high, wide, depth = pixels.shape
    data = np.ascontiguousarray(pixels).tobytes()
    made = pygame.image.frombuffer(data, (wide, high), "RGBA" if depth == 4 else "RGB")
    return made.convert_alpha() if depth == 4 else made.convert()
