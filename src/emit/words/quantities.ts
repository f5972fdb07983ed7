// What people call the quantities of check values, so that `sensor voltage` finds limits in volts.

const names: Readonly<Record<string, string>> = {
  voltage: 'voltage volts tensión voltaje',
  current: 'current amps corriente',
  resistance: 'resistance ohms resistencia',
  pressure: 'pressure presión',
  temperature: 'temperature temperatura',
  length: 'length distance longitud distancia',
  distance: 'distance distancia',
  height: 'height altura',
  width: 'width ancho',
  angle: 'angle ángulo',
  speed: 'speed velocidad',
  rotation: 'speed rpm velocidad vueltas',
  'rotational-speed': 'speed rpm velocidad vueltas',
  mass: 'mass weight masa peso',
  weight: 'weight mass peso masa',
  'mass-flow': 'mass flow flujo de masa',
  area: 'area superficie',
  yield: 'yield rendimiento',
  moisture: 'moisture humedad',
  time: 'time tiempo',
  duration: 'time tiempo',
  force: 'force fuerza',
  torque: 'torque par',
  volume: 'volume volumen',
  ratio: 'ratio relación',
};

/** Words to find a quantity by, in both languages; the kind itself where it has no others. */
export function quantityWords(kind: string): string {
  return names[kind.replaceAll(/[ _]/g, '-')] ?? kind.replaceAll('-', ' ');
}
