import type { PHOTO_WORDS } from '../en/photo';
import type { Translation } from '../translation';

export const PHOTO_WORDS_ES: Translation<typeof PHOTO_WORDS> = {
  'photo.capture.blurred':
    'La foto está borrosa (los bordes se extienden {px} píxeles). Apoye el teléfono, toque los conductores para enfocar y tómela otra vez.',
  'photo.capture.clipped':
    'El {percent} % de la foto está quemado. Apague el flash o incline el teléfono para que ninguna lámpara se refleje, y tómela otra vez.',
  'photo.capture.clipped-flash':
    'El flash quemó el {percent} % de la foto. Aléjese un paso, o apague el flash e ilumine de lado, y tómela otra vez.',
  'photo.capture.dark': 'La foto está muy oscura. Ilumine los conductores de lado y tómela otra vez.',
  'photo.capture.dark-no-flash':
    'La foto está muy oscura y el flash estaba apagado. Use una lámpara de trabajo o la linterna y tómela otra vez.',
  'photo.capture.noisy': 'La foto tiene mucho grano, como con poca luz. Agregue luz y tómela otra vez.',
  'photo.capture.cast':
    'La luz tiene mucho color (a {deg} grados de lo neutro). Ponga una hoja de papel blanco en la toma y tóquela.',
  'photo.capture.mixed-light':
    'Partes de la foto parecen iluminadas por lámparas distintas. Tape una, o ilumine todo con una sola lámpara de trabajo.',
  'photo.capture.mixed-light-flash':
    'En esta foto se juntan el flash y otra luz de distinto color. Apague el flash o tape la otra luz.',
  'photo.light.flash':
    'Iluminada por el flash o la linterna de la cámara: el reflejo oculta el color del lado que mira al teléfono, y lo más profundo queda más oscuro. Si duda de un color, tome otra sin ella y con luz de lado.',
  'photo.capture.few-pixels':
    'La foto solo tiene {width} por {height} píxeles. Use la foto original, no una vista previa ni una copia reenviada.',
  'photo.capture.animated': 'Esta es una imagen en movimiento. Solo se leyó su primer cuadro; tome una foto fija.',
  'photo.capture.drawn':
    'Esto parece un dibujo o una pantalla y no una foto de conductores: nada tiene sombra a lo ancho. Tome una foto de los conductores mismos.',
  'photo.capture.thin':
    'Aquí los conductores solo tienen unos {px} píxeles de ancho. Acérquese, o fotografíe el gabinete por partes.',
};
