'use client'
import { Icon } from '../icons'
import { useThemeChoice, useUnitSystem } from '../preferences'
import { Segmented } from '../tabs'
import { useLocalText } from '../use-local-text'

export function ThemeSwitch() {
  const [choice, choose] = useThemeChoice()
  return (
    <Segmented label="Theme" size="small" value={choice} onValueChange={choose} options={[
      { value: 'light', name: 'Light', label: <Icon name="light" /> },
      { value: 'dark', name: 'Dark', label: <Icon name="dark" /> },
      { value: 'system', name: 'As the system', label: <Icon name="system" /> },
    ]} />
  )
}

export function UnitSwitch() {
  const [system, choose] = useUnitSystem()
  const local = useLocalText()
  return (
    <Segmented label="Units" size="small" value={system} onValueChange={choose} options={[
      { value: 'us', name: 'US units: feet, °F', label: 'ft °F' },
      { value: 'metric', name: local('Metric units: metres, °C'), label: 'm °C' },
    ]} />
  )
}
