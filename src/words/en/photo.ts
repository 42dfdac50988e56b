/** Words of the photo room: codes start with "photo.". */
export const PHOTO_WORDS = {
  'photo.capture.blurred':
    'The photo is soft (edges spread over {px} pixels). Rest the phone against something, tap the conductors to focus, and take it again.',
  'photo.capture.clipped':
    '{percent} % of the photo is burnt out. Turn the flash off or tilt the phone so that no lamp shines back, and take it again.',
  'photo.capture.clipped-flash':
    '{percent} % of the photo is burnt out by the flash. Go back a step, or turn the flash off and light from the side, and take it again.',
  'photo.capture.dark': 'The photo is very dark. Light the conductors from the side and take it again.',
  'photo.capture.dark-no-flash':
    'The photo is very dark and the flash was off. Use a work light or the torch and take it again.',
  'photo.capture.noisy': 'The photo is grainy, as in too little light. Add light and take it again.',
  'photo.capture.cast':
    'The light is strongly colored ({deg} degrees from neutral). Put a piece of white paper in the shot and tap it.',
  'photo.capture.mixed-light':
    'Parts of the photo seem to be lit by different lamps. Shade one of them, or light everything with one work light.',
  'photo.capture.mixed-light-flash':
    'The flash and another light meet in this photo and differ in color. Turn the flash off, or shade the other light.',
  'photo.light.flash':
    'Lit by the flash or torch of the camera itself: glare hides color on the side that faces the phone, and what lies deeper is darker. Where a color is in doubt, take one more without it and with a light from the side.',
  'photo.capture.few-pixels':
    'The photo has only {width} by {height} pixels. Use the original photo, not a preview or a forwarded copy.',
  'photo.capture.animated': 'This is a moving picture. Only its first frame was read; take a still photo.',
  'photo.capture.drawn':
    'This looks like a drawing or a screen, not like a photo of conductors: nothing shades across them. Take a photo of the conductors themselves.',
  'photo.capture.thin':
    'The conductors are only about {px} pixels wide here. Go closer, or photograph one part of the enclosure at a time.',
} as const satisfies Readonly<Record<string, string>>;
