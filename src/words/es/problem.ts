import type { PROBLEM_WORDS } from '../en/problem';
import type { Translation } from '../translation';

export const PROBLEM_WORDS_ES: Translation<typeof PROBLEM_WORDS> = {
  'problem.empty-file.what': 'Este archivo está vacío (0 bytes).',
  'problem.empty-file.todo': 'Quizá no terminó de copiarse. Cópielo otra vez, o tome la foto otra vez.',
  'problem.not-a-picture.what': 'Este archivo no es una imagen que esta herramienta pueda leer.',
  'problem.not-a-picture.todo': 'Elija una foto JPEG, PNG, WebP o AVIF.',
  'problem.pdf.what': 'Esto es un PDF, no una foto.',
  'problem.pdf.todo': 'Guarde la página como imagen, o fotografíe los conductores mismos.',
  'problem.heic-unsupported.what': 'Esta es una foto HEIC, que este navegador no puede abrir.',
  'problem.heic-unsupported.todo':
    'Ponga la cámara en su formato más compatible (JPEG), o pase la foto a este dispositivo como JPEG.',
  'problem.truncated-picture.what': 'Esta imagen está cortada: falta parte del archivo.',
  'problem.truncated-picture.todo': 'Cópiela otra vez de la cámara, o tome la foto otra vez.',
  'problem.picture-too-small.what': 'Esta imagen solo tiene {width} por {height} píxeles.',
  'problem.picture-too-small.todo': 'Use la foto original: al menos 200 píxeles en el lado corto.',
  'problem.picture-too-large.what':
    'Esta imagen tiene {width} por {height} píxeles, más de lo que este dispositivo puede abrir.',
  'problem.picture-too-large.todo': 'Tome una foto normal en lugar de una panorámica, o recórtela antes.',
  'problem.undecodable-picture.what': 'No se pudo abrir esta imagen; el archivo parece dañado.',
  'problem.undecodable-picture.todo': 'Cópiela otra vez de la cámara, o tome la foto otra vez.',
  'problem.camera-denied.what': 'El navegador no tiene permiso para usar la cámara.',
  'problem.camera-denied.todo':
    'Permita la cámara para esta página en los ajustes del navegador, o elija un archivo de foto.',
  'problem.camera-missing.what': 'No se encontró ninguna cámara en este dispositivo.',
  'problem.camera-missing.todo': 'Elija un archivo de foto.',
  'problem.camera-lost.what': 'La cámara se detuvo.',
  'problem.camera-lost.todo': 'Cierre otras aplicaciones que usen la cámara y ábrala otra vez.',
  'problem.engine-failed.what': 'La lectura de la foto se detuvo por una falla de este programa.',
  'problem.engine-failed.todo': 'La foto se conserva. Intente otra vez; si vuelve a fallar, use una foto más pequeña.',
  'problem.engine-unavailable.what': 'Este navegador no deja arrancar el motor de lectura.',
  'problem.engine-unavailable.todo': 'Actualice el navegador, o abra esta página en otro.',
  'problem.cancelled.what': 'Detenido.',
  'problem.cancelled.todo': 'No se perdió nada. Empiece otra vez cuando quiera.',
  'problem.no-conductor-here.what': 'Desde este punto no se pudo seguir ningún conductor.',
  'problem.no-conductor-here.todo': 'Toque el centro del conductor, o dibuje a lo largo de él con un solo trazo.',
  'problem.storage-full.what': 'En este dispositivo no queda espacio para el registro.',
  'problem.storage-full.todo':
    'Exporte los trabajos terminados, bórrelos aquí y guarde otra vez. Nada de lo que está en pantalla se ha perdido todavía.',
  'problem.storage-unavailable.what':
    'Este navegador no deja guardar el registro (ventana privada, o almacenamiento desactivado).',
  'problem.storage-unavailable.todo': 'Exporte el trabajo a un archivo antes de cerrar esta página.',
  'problem.save-not-verified.what': 'El registro se escribió, pero al leerlo de vuelta salió otra cosa.',
  'problem.save-not-verified.todo': 'Exporte el trabajo a un archivo ahora y guarde otra vez.',
  'problem.record-changed.what': 'Este registro no coincide con sus propias sumas de control: algo en él fue cambiado.',
  'problem.record-changed.todo': 'No confíe en él. Pida la exportación original.',
  'problem.changed-elsewhere.what': 'Este trabajo se cambió en otra pestaña o ventana desde que se abrió aquí.',
  'problem.changed-elsewhere.todo': 'Exporte a un archivo lo que está en pantalla y abra el trabajo otra vez.',
  'problem.import-malformed.what': 'Este archivo no es un trabajo que esta herramienta pueda leer: {detail}{place}.',
  'problem.import-malformed.todo': 'Elija un archivo JSON exportado desde aquí. No se cambió nada.',
  'problem.schedule-unreadable.what': 'Esta no es una tabla de circuitos que la herramienta pueda leer: {detail}.',
  'problem.schedule-unreadable.todo':
    'Guarde la hoja como CSV con una línea de encabezados, o péguela como tabla. No se cambió nada.',
  'problem.schedule-too-large.what': 'Esta tabla tiene {rows} líneas; un trabajo admite {most} como máximo.',
  'problem.schedule-too-large.todo':
    'Divídala, por ejemplo por piso o por tablero, y haga un trabajo de cada parte. No se cambió nada.',
  'problem.archive-damaged.what': 'Este archivo no se puede leer: {detail}.',
  'problem.archive-damaged.todo': 'Pídalo de nuevo, o cópielo otra vez de donde se guarda. Aquí no se cambió nada.',
  'problem.archive-too-large.what': 'Este archivo dice que al abrirse ocupa más de lo permitido: {detail}.',
  'problem.archive-too-large.todo': 'No se abrió. Pregunte de dónde viene y pida el archivo original.',
  'problem.bad-argument.what': '{detail}',
  'problem.bad-argument.todo': 'Vea --help.',
};
